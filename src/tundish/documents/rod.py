"""The storey rod: every height that is marked on the wall, from both floors, top down."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.figure import Figure, number
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Placed, Room


@dataclass(frozen=True, slots=True)
class RodMark:
    """One height: what it is, from the bare floor, which piece it belongs to and the name of its figure."""

    label: str
    height: Figure
    key: str
    piece: str = ""
    client: bool = False
    """Whether it is one that the client feels and agrees."""
    of: str = ""
    """What that piece is called."""


def marks_of(placed: Placed) -> tuple[RodMark, ...]:
    """The heights of one appliance that are marked on the wall, top down."""
    made = [
        RodMark(words, placed.figures[name], f"{placed.key}.{name}", placed.key, client=name == "top", of=placed.name)
        for name, words in (*KINDS[placed.choice.kind].rod, ("frame_top", "Frame top"))
        if name in placed.figures
    ]
    return tuple(sorted(made, key=lambda mark: -mark.height.value))


def rod(room: Room) -> tuple[RodMark, ...]:
    """All the heights of a room, top down: the pre-wall, the datum, every appliance, both floors."""
    own = [
        RodMark("Top of pre-wall", room.top, "top_of_prewall", client=True),
        RodMark("Top of steel" if room.of_steel else "Top of studwork", room.top_of_steel, "top_of_steel"),
        RodMark("Datum line", room.figures["datum"], "datum"),
        RodMark("Finished floor", room.finished_floor, "finished_floor"),
        RodMark("Bare floor", number(0, "mm", "Bare floor"), "bare_floor"),
    ]
    for placed in room.placed:
        own += [mark for mark in marks_of(placed) if not mark.key.endswith(".frame_top")]
    return tuple(sorted(own, key=lambda mark: -mark.height.value))
