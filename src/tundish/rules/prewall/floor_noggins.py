"""Timber under the feet where a floor lies on joists."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.members import FLOOR_NOGGIN, marked, to_cut
from tundish.rules.rule import Need, rule


@rule("prewall/floor-noggins", figures=("prewall.joist_width",), source="common practice")
def floor_noggins(room: Room, book: Book) -> Iterator[Need]:
    """On joists, a noggin lies beneath every foot.

    Cut to the clear space between joists. Where a foot stands on a joist the noggin is to spare.
    """
    yield from to_cut(marked(room, FLOOR_NOGGIN), "floor noggins", why="under the feet", role="floor noggin")
