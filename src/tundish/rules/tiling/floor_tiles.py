"""The tiles of the floor."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted, number, round_up
from tundish.layout.room import Room
from tundish.rules.beside_tiles import spacer_for
from tundish.rules.floor_tiles import floor_tiles_of
from tundish.rules.rule import Need, rule


@rule(
    "tiling/floor-tiles",
    figures=("tiling.breakage", "tiling.spacers_each"),
    source="common practice: one tenth for breakage and cutting",
    whole=True,
)
def floor_tiles(room: Room, book: Book) -> Iterator[Need]:
    """Where the floor is tiled, it is tiled as it is set out, up to its walls, the face of its pre-walls and what stands on it.

    Cut tiles come from one another's offcuts. Breakage is added and the sum rounded up to whole tiles; spacers are for all their corners.
    """
    if room.floor is None:
        return
    tiles = floor_tiles_of(room, room.floor)
    factor = (number(1, "", "Tiles") + converted(book.figure("tiling.breakage"), "")).named("Tiles and breakage")
    amount = round_up((tiles * factor).named("Floor tiles with breakage"), 1.0, "Whole tiles")
    yield Need(amount, "boarding", "the floor, with breakage", item=room.floor.tile.code)
    corners = (tiles * number(book.figure("tiling.spacers_each").value, "", "corners each")).named("Corners of floor tiles")
    yield Need(corners, "boarding", "corners of floor tiles", item=spacer_for(room.floor.joint, book).code)
