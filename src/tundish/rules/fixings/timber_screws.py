"""What studwork is screwed together with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import several
from tundish.rules.members import NOGGIN, RAIL_NOGGIN, TRIMMER, UPRIGHT, marked
from tundish.rules.rule import Need, rule


@rule("fixings/timber-screws", figures=("fixings.each_stud_joint",), source="two fixings a joint: NHBC Standards 6.3.9")
def timber_screws(room: Room, book: Book) -> Iterator[Need]:
    """Studwork joints have two screws each.

    A stud, a noggin and a trimmer have a joint at both ends.
    """
    if not room.of_steel:
        studs, noggins = len(marked(room, UPRIGHT)), len(marked(room, NOGGIN + TRIMMER + RAIL_NOGGIN))
        pieces = (several(studs, "Studs") + several(noggins, "Noggins")).named("Studs and noggins")
        amount = (pieces * book.figure("fixings.each_stud_joint")).named("Screws of studs and noggins")
        yield Need(amount, "frames", f"{studs} studs, {noggins} noggins", role="wood screw 80")
