"""What keeps the joints even."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.rules.beside_tiles import spacer_for
from tundish.rules.rule import Asked, Need, rule
from tundish.rules.tile_count import whole_tiles


@rule("tiling/spacers", figures=("tiling.spacers_each",), source="common practice", reads="needs")
def spacers(asked: Asked, book: Book) -> Iterator[Need]:
    """Spacers for every tile corner.

    Four for each tile before breakage, as wide as the joint.
    """
    amount = (whole_tiles(asked.room) * number(4, "", "corners each")).named("Corners of tiles")
    yield Need(amount, "boarding", "tile corners", item=spacer_for(asked.room.figures["joint"], book).code)
