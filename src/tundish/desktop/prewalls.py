"""Pre-walls of a room added and taken away, with what hangs on them."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from tundish.field import Entry
from tundish.figure import Known
from tundish.layout.design import PREWALLS, Appliance, Design, PreWall
from tundish.layout.room import Room

ADDED: Final = (
    ("along", "Pre-wall along a wall"),
    ("corner", "Pre-wall across a corner"),
    ("boxing", "Boxing round a pipe"),
)
"""What can be added, by key, with its words."""
BOXING: Final = 300.0
"""How long a boxing is at first, mm."""


def with_prewall(design: Design, kind: str, room: Room) -> Design | None:
    """One pre-wall more, at the first wall that has none; None where the room has as many as it can have."""
    if len(design.further) + 1 >= len(PREWALLS):
        return None
    taken = {each.wall for each in (design.prewall, *design.further)}
    wall = next((side.letter for side in room.sides if side.letter not in taken), room.wall)
    made = PreWall(wall=wall)
    if kind == "corner":
        made = replace(made, stands="across its left-hand corner", name="corner")
    elif kind == "boxing":
        box = Entry(BOXING, Known.ASSUMED)
        made = replace(made, name="boxing", built_of="timber", height="full", shelf=False, run=box, depth=Entry(BOXING / 2, Known.ASSUMED))
    return replace(design, further=(*design.further, made))


def without_prewall(design: Design, place: int) -> Design:
    """The pre-wall at a place taken away with what hangs on it; the next takes the place of the first. The last one left stays."""
    every = (design.prewall, *design.further)
    if len(every) == 1 or not 0 <= place < len(every):
        return design
    first, *further = every[:place] + every[place + 1 :]
    kept = tuple(_renumbered(each, place) for each in design.appliances if _on(each) != place)
    return replace(design, prewall=first, further=tuple(further), appliances=kept)


def prewall_words(rooms: tuple[Room, ...]) -> tuple[str, ...]:
    """What each pre-wall of a room is called on its chip: "Wall A", "Wall B, basin wall"."""
    words = [f"Wall {room.wall}" + (f", {room.prewall.name.strip()}" if room.prewall.name.strip() else "") for room in rooms]
    return tuple(each if words.count(each) == 1 else f"{each} ({place + 1})" for place, each in enumerate(words))


def _on(appliance: Appliance) -> int:
    return PREWALLS.index(appliance.on) if appliance.on in PREWALLS else 0


def _renumbered(appliance: Appliance, gone: int) -> Appliance:
    on = _on(appliance)
    return replace(appliance, on=PREWALLS[on - 1]) if on > gone else appliance
