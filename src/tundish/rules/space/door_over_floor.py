"""Whether a door opens over the floor where somebody stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.catalogue.book import Book
from tundish.layout.clip import common
from tundish.layout.room import Room
from tundish.layout.walls import Point
from tundish.rules.clear_floor import BEFORE, stood_on
from tundish.rules.rule import Finding, WayOut, rule
from tundish.rules.ways import hung_otherwise


@rule(
    "space/door-over-floor",
    figures=BEFORE,
    source="Centre for Accessible Environments: floor clear of fittings and of the door; in dwellings common practice",
)
def door_over_floor(room: Room, book: Book) -> Iterator[Finding]:
    """No door swings over the clear floor in front of an appliance.

    Whoever stands there stops it, and is struck by it: the quarter circle of the leaf against the floor that each kind asks for.
    """
    floors = [(one.name, floor) for one in room.placed if (floor := stood_on(room, one, book))]
    for door in room.around.of("swing"):
        over = _over(door.shape, floors)
        if over:
            clear = not _over(door.turned, floors)
            message = f"It opens over the floor before {', '.join(over)}: whoever stands there is struck by it, or keeps it shut."
            ways: tuple[WayOut, ...] = tuple(hung_otherwise(door, clear=clear))
            yield Finding(f"Floor under the {door.name}", "Clearances", "look", None, "Guidance", _SOURCE, message=message, ways_out=ways)


def _over(leaf: Sequence[Point], floors: Sequence[tuple[str, Sequence[Point]]]) -> list[str]:
    return [name for name, floor in floors if common(leaf, floor)]


_SOURCE = "common practice"
