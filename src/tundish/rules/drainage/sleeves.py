"""What branches and wastes go through a wall or the floor in."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.rules.rule import Finding, Need, rule
from tundish.rules.sleeving import FIGURES, FLOORS, drains_down, drains_through, drilled, sleeved


@rule(
    "drainage/sleeves",
    figures=(*FIGURES, *FLOORS),
    source="common practice: a pipe moves in its sleeve, and neither sound, damp nor smoke passes it",
)
def sleeves(room: Room, book: Book) -> Iterator[Need | Finding]:
    """A branch or waste that goes through a wall or the floor lies in a sleeve, sealed at both ends.

    To a stack or an entry that was surveyed as behind the wall, or an entry under the floor. The sleeve is as long as the wall or floor
    is thick, and a size larger than the pipe. A solid wall or floor is cored: the drill is hired for a day.
    """
    found = (*drains_through(room), *drains_down(room, book))
    for one in found:
        yield from sleeved(one, book)
    if drilled(found):
        yield Need(number(1, "day", "Holes through a solid wall or floor"), "first fix", "holes through wall or floor", role="core drill")
