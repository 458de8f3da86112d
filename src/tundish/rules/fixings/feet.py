"""What the frames stand fast with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import bare
from tundish.rules.grounds import into_floor
from tundish.rules.rule import Need, rule


@rule("fixings/feet", figures=("fixings.each_foot",), source="common practice")
def foot_fixings(room: Room, book: Book) -> Iterator[Need]:
    """Each foot of a frame has two fixings into the floor.

    Screws where the floor lies on joists, into the noggins; anchors in screed and concrete. Mind pipes and heating in the floor.
    The feet of a self-standing pre-wall have more: they are counted with them.
    """
    if room.self_standing:
        return
    for one in room.framed:
        amount = (bare(one.frame.size("feet")) * book.figure("fixings.each_foot")).named(f"Feet of {one.name}")
        yield Need(amount, "frames", f"feet of {one.name}", role=into_floor(room))
