"""Heights that cannot be moved once the wall is closed."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.decisions import key_of
from tundish.rules.rule import Decision, rule


@rule("closing/heights", source="common practice")
def heights_agreed(room: Room, book: Book) -> Iterator[Decision]:
    """The heights are agreed and signed by the client.

    Made wherever something hangs on the wall.
    """
    if room.placed:
        part = room.prewall.height == "part"
        tops = [f"{one.name} {_above(room, one.figures['top'])}" for one in room.placed]
        yield Decision(
            key_of(room, "heights"),
            "Heights agreed and signed",
            "No moving them once boarded.",
            "By first fix",
            "Signed sheet",
            ", ".join([*tops, f"pre-wall {_above(room, room.top)}"] if part else tops),
            (*(f"{one.path}.top" for one in room.placed), *((f"{room.prewall_path}.top",) if part else ())),
        )


def _above(room: Room, height: Figure) -> str:
    """A height above the finished floor, as it is agreed."""
    return show_length(height.value - room.finished_floor.value)
