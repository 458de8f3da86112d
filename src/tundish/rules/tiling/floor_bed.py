"""What the tiles of the floor are laid in."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.rules.floor_tiles import module_of
from tundish.rules.rule import Asked, Need, rule


@rule(
    "tiling/floor-bed",
    figures=("tiling.bed_small", "tiling.bed_large", "tiling.small_tile", "tiling.primer_ml_m2"),
    source="coverage of cement adhesive by tile size: a published trade table; solid bed on floors: BS 5385-3 (from memory)",
    reads="needs",
    whole=True,
)
def floor_bed(asked: Asked, book: Book) -> Iterator[Need]:
    """Where the floor is tiled, it is primed, and its tiles are bedded solid.

    Tiles of a tenth of a square metre and more take the thicker bed.
    """
    room = asked.room
    if room.floor is None:
        return
    small = module_of(room.floor)[1].value < book.figure("tiling.small_tile").value
    rate = book.figure("tiling.bed_small" if small else "tiling.bed_large")
    primer = book.figure("tiling.primer_ml_m2")
    yield Need((room.floor.area * rate).named("Bed of floor tiles"), "boarding", "solid bed on the floor", role="tile adhesive")
    yield Need((room.floor.area * primer).named("Primer on the floor"), "boarding", "floor before tiling", role="primer")
