"""Plates that spread the feet of frames on floors that they would dent."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.feet import PLATE, wants_plate
from tundish.rules.rule import Need, rule


@rule(
    "frames/spreader-plates",
    figures=("loads.wc", "loads.bidet", "loads.basin", "loads.urinal", "loads.floor_point", "loads.floor_point_side"),
    source="common practice; what a floor bears: EN 1991-1-1 with the UK's annex, from memory",
)
def spreader_plates(room: Room, book: Book) -> Iterator[Need]:
    """Where the feet of a frame bring more than a sheet floor or a screed bears under so small a place, a plate lies under each.

    None on structural concrete, nor under the deep feet of a self-standing pre-wall.
    """
    for one in room.framed:
        if wants_plate(room, book, one):
            yield Need(one.frame.size("feet").named(f"Feet of {one.name}"), "frames", f"under the feet of {one.name}", role=PLATE)
