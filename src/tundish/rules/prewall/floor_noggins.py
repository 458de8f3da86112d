"""Timber under the feet where a floor lies on joists."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import in_all
from tundish.rules.members import FLOOR_NOGGIN, cuts_of, marked
from tundish.rules.rule import Need, rule


@rule("prewall/floor-noggins", figures=("prewall.joist_width",), source="common practice")
def floor_noggins(room: Room, book: Book) -> Iterator[Need]:
    """On joists, a noggin lies beneath every foot.

    Cut to the clear space between joists. Where a foot stands on a joist the noggin is to spare.
    """
    members = marked(room, FLOOR_NOGGIN)
    if members:
        amount = in_all([one.length for one in members], "floor noggins", f"Floor noggins, {len(members)}")
        yield Need(amount, "frames", "under the feet", role="floor noggin", cuts=cuts_of(members))
