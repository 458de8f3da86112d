"""The tiles themselves."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted, number, round_up
from tundish.layout.room import Room
from tundish.rules.rule import Need, rule
from tundish.rules.tile_count import whole_tiles


@rule("tiling/tiles", figures=("tiling.breakage",), source="common practice: one tenth for breakage and cutting")
def wall_tiles(room: Room, book: Book) -> Iterator[Need]:
    """Every face is tiled as it is set out, cut tiles from one another's offcuts.

    The set-out is the one chosen, or the one that spoils least. Breakage is added and the sum rounded up to whole tiles.
    """
    factor = (number(1, "", "Tiles") + converted(book.figure("tiling.breakage"), "")).named("Tiles and breakage")
    amount = round_up((whole_tiles(room) * factor).named("Tiles with breakage"), 1.0, "Whole tiles")
    yield Need(amount, "boarding", "every face, with breakage", item=room.tile.code)
