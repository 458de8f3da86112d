"""What branches and wastes go through a wall in."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.rules.rule import Finding, Need, rule
from tundish.rules.sleeving import FIGURES, drains_through, drilled, sleeved


@rule(
    "drainage/sleeves", figures=FIGURES, source="common practice: a pipe moves in its sleeve, and neither sound, damp nor smoke passes it"
)
def sleeves(room: Room, book: Book) -> Iterator[Need | Finding]:
    """A branch or waste that goes through a wall lies in a sleeve, sealed at both ends.

    To a stack or an entry that was surveyed as behind the wall. The sleeve is as long as the wall is thick, and a size larger than the
    pipe. A solid wall is cored: the drill is hired for a day.
    """
    found = tuple(drains_through(room))
    for one in found:
        yield from sleeved(one, book)
    if drilled(found):
        yield Need(number(1, "day", "Holes through a solid wall"), "first fix", "holes through the wall", role="core drill")
