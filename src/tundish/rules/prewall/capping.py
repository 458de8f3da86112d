"""What closes the top of a pre-wall of part height that has no shelf."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.footprints import stopped
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.amounts import in_all
from tundish.rules.rule import Cut, Finding, Need, judge, rule


@rule("prewall/capping", figures=("prewall.capping_over",), source="common practice")
def capping(room: Room, book: Book) -> Iterator[Need | Finding]:
    """Part height without a shelf is closed by a capping, one slab over frame, boards and tiles.

    It stands over at the front and at open ends, and is cut in equal parts where one slab is too short. Where its front goes on into
    another it is mitred, and measured along its back; where it stops aslant against a higher one, along its front.
    """
    if room.capping is None:
        return
    item, length, least = room.capping.item, room.capping.length, room.capping.depth
    longest = max((offer.length for offer in book.offers.get(item.code, ())), default=0.0)
    cuts = tuple(_parts(room, length, longest))
    yield Need(in_all([cut.length for cut in cuts], "slabs", "Capping"), "boarding", "top of the pre-wall", item=item.code, cuts=cuts)
    has = item.size("width")
    state = judge(has, least, None)
    message = "" if state == "passes" else f"The slab is {show_length(least.value - has.value)} too narrow: choose a wider one, or a shelf."
    yield Finding("Capping over the pre-wall", "Clearances", state, has, "Own rule", "maker's sheet", least, None, message)


def _parts(room: Room, length: Figure, longest: float) -> Iterator[Cut]:
    count = max(1, int(-(-length.high // longest))) if longest else 1
    part = length if count == 1 else (length / count).named(f"1/{count} of {length.label}")
    for place in range(1, count + 1):
        where = "top of the pre-wall"
        for join, side, at_end in zip(room.joins, ("left", "right"), (place == 1, place == count), strict=True):
            if join is not None and at_end:
                where += f"; {side} end mitred {join.cut} to {join.name}"
        for against, side, at_end in zip(stopped(room), ("left", "right"), (place == 1, place == count), strict=True):
            if against is not None and at_end:
                where += f"; {side} end cut {against.cut} to {against.name}"
        yield Cut(f"{room.mark}K{place}", part, "capping", where)
