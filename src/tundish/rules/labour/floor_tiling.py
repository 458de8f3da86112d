"""Hours for tiling the floor."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import LABOUR, Need, rule


@rule("labour/floor-tiling", figures=("labour.floor_tile_m2",), source="invented for the demonstration: put in your own", whole=True)
def floor_tiling(room: Room, book: Book) -> Iterator[Need]:
    """Hours for tiling the floor, from the trader's own norm.

    Each square metre primed, tiled and grouted.
    """
    if room.floor is not None:
        hours = (room.floor.area * book.figure("labour.floor_tile_m2")).named("Tiling the floor")
        yield Need(hours, "boarding", "floor tiles", role=LABOUR, work="tiling")
