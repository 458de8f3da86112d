"""Whether the tie rods reach from frame to wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.rules.rule import Finding, judge, rule


@rule("frames/reach", source="maker's sheet of the tie rod")
def reach(room: Room, book: Book) -> Iterator[Finding]:
    """The tie rods reach the wall, however deep the pre-wall turns out.

    It is to be looked at when they reach over part of the range only.
    """
    for one in room.placed:
        has = one.figures["reach"]
        if one.tie_rod is None:
            words = "The catalogue holds no tie rod. Add one with the least and most it reaches."
            yield Finding("Tie rod reach", "Void", "cannot tell", has, "Maker", "maker's sheet", message=words, place=one.name)
        else:
            yield _judged(has, one.tie_rod, one.name)


def _judged(has: Figure, rod: Item, place: str) -> Finding:
    least, most = rod.size("reach_least"), rod.size("reach_most")
    state, message = judge(has, least, most), ""
    if state != "passes":
        message = "No tie rod reaches this far. Change the depth of the pre-wall, or find one that does."
    elif has.low < least.value or has.high > most.value:
        state, message = "look", "No tie rod serves the whole range. Settle the depth of the pre-wall."
    return Finding("Tie rod reach", "Void", state, has, "Maker", rod.sheet, least, most, message, place)
