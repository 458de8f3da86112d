"""What tiles are laid in."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.rules.amounts import area
from tundish.rules.faces import tiled_area
from tundish.rules.rule import Asked, Need, rule


@rule(
    "tiling/bed",
    figures=("tiling.bed_small", "tiling.bed_large", "tiling.small_tile"),
    source="coverage of cement adhesive by tile size: a published trade table; solid bed in wet rooms: BS 5385-4",
    reads="needs",
)
def bed(asked: Asked, book: Book) -> Iterator[Need]:
    """Tiles are bedded solid.

    Tiles of a tenth of a square metre and more take the thicker bed.
    """
    room = asked.room
    one = area(room.tile.size("width"), room.tile.size("height"), "One tile")
    small = one.value < book.figure("tiling.small_tile").value
    rate = book.figure("tiling.bed_small" if small else "tiling.bed_large")
    yield Need((tiled_area(room) * rate).named("Bed of tiles"), "boarding", "solid bed", role="tile adhesive")
