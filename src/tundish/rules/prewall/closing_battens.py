"""What a lower run is closed with where it stops against a higher front across its corner."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.footprints import stopped
from tundish.layout.room import Room
from tundish.rules.amounts import bare, each, whole_spaces
from tundish.rules.members import BATTEN, marked, to_cut
from tundish.rules.rule import Need, rule


@rule("prewall/closing-battens", figures=("prewall.join_apart", "prewall.join_screws"), source="common practice; own rule for the screws")
def closing_battens(room: Room, book: Book) -> Iterator[Need]:
    """Where a run stops against a higher front across its corner battens on that front take the ends of its boards.

    One stands behind the edge of the front, from the floor to the top, its outer edge planed to the angle; one lies level with the top from
    there to the wall. Each is screwed to that front's upright and rails at its ends and between, as far apart as the brackets of a join.
    """
    battens = marked(room, BATTEN)
    yield from to_cut(battens, "closing battens", role="timber stud")
    for against, left in zip(stopped(room), (True, False), strict=True):
        for batten in (one for one in battens if against is not None and (one.turn < 0) == left):
            apart = book.figure("prewall.join_apart")
            role = "wall fixing metal stud" if against is not None and against.steel else "wood screw 80"
            places = whole_spaces(batten.length, apart, "Spaces along the batten") * each(1, "screw for each") + each(1, "At its end")
            screws = (places * bare(book.figure("prewall.join_screws"))).named(f"Screws, {batten.mark}")
            yield Need(screws, "frames", f"closing batten {batten.mark}", role=role)
