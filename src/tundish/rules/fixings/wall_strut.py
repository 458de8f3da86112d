"""What the struts on a stud wall are fixed with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import counted
from tundish.rules.grounds import into_wall
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Need, rule
from tundish.rules.strut_screws import COUNTED, on_ply, screws_over


@rule("fixings/wall-strut", figures=COUNTED, source="common practice; pull per screw is checked under loads")
def wall_strut_fixings(room: Room, book: Book) -> Iterator[Need]:
    """Each wall strut is screwed to every wall stud it crosses with two screws.

    Where there are noggins between them, with two into each of these too; where there is ply instead, four hold the ply to each stud.
    """
    for strut in marked(room, WALL_STRUT):
        amount = counted(screws_over(room, book, strut, len(strut.bears), f"Screws of {strut.mark}"))
        what = f"ply behind {strut.mark}" if on_ply(room) else strut.mark
        yield Need(amount, "frames", f"{what} on wall studs", role=into_wall(room, strut.x))
