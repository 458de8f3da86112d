"""Whether a flush is within the law."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout.room import Placed, Room
from tundish.measure import show_number
from tundish.rules.rule import Finding, judge, rule


@rule(
    "water/flush",
    figures=("water.flush_most", "water.flush_small_most", "water.urinal_flush_most"),
    source="Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraph 25",
)
def flush(room: Room, book: Book) -> Iterator[Finding]:
    """A flush takes no more water than the law allows.

    A full flush at most so many litres, a lesser one at most two thirds of it. A urinal has a limit of its own, for the
    flushing valve in its frame.
    """
    for one in room.of_kind("wc"):
        yield _full(one, one.ware, book.figure("water.flush_most"))
        yield _small(one, book)
    for one in room.of_kind("urinal"):
        if one.frame.has("flush"):
            yield _full(one, one.frame, book.figure("water.urinal_flush_most"))


def _full(one: Placed, flushes: Item, most: Figure) -> Finding:
    has = flushes.size("flush")
    state = judge(has, None, most)
    message = "" if state == "passes" else f"Set the flush to {show_number(most.value, None)} l or less, or choose another model."
    return Finding("Full flush", "Water", state, has, "Regulation", most.note, None, most, message, one.name)


def _small(one: Placed, book: Book) -> Finding:
    share = book.figure("water.flush_small_most")
    has, most = one.ware.size("flush_small"), (one.ware.size("flush") * share).named("Two thirds of the full flush")
    state = judge(has, None, most)
    message = "" if state == "passes" else f"Set the small flush to {show_number(most.value, 1)} l or less, or choose another model."
    return Finding("Small flush", "Water", state, has, "Regulation", share.note, None, most, message, one.name)
