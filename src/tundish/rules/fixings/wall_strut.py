"""What the struts on a stud wall are fixed with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import several
from tundish.rules.grounds import into_wall
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Need, rule


@rule("fixings/wall-strut", figures=("fixings.each_wall_stud",), source="common practice; pull per screw is checked under loads")
def wall_strut_fixings(room: Room, book: Book) -> Iterator[Need]:
    """Each wall strut is screwed to every wall stud it crosses with two screws."""
    apiece = book.figure("fixings.each_wall_stud")
    for strut in marked(room, WALL_STRUT):
        crossed = len(strut.bears)
        amount = (several(crossed, f"Wall studs that {strut.mark} crosses") * apiece).named(f"Screws of {strut.mark}")
        yield Need(amount, "frames", f"{strut.mark} on wall studs", role=into_wall(room, strut.x))
