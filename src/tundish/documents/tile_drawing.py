"""Tiles drawn as they are set out: every tile to scale, cut ones with their size, and the holes through them."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.documents.drawing import Box, Drawing, Ellipse, Mark, Words
from tundish.layout.tile_starts import Choice
from tundish.layout.tiles import LaidTile, SetOut

SIZE = 2.2
_ROOM = 60.0
"""A cut tile narrower than this has its size written upwards, or not at all when it is no longer either."""


def tiles(laid: SetOut) -> Drawing:
    """One face with its tiles: whole ones plain, cut ones with their size, holes as circles."""
    marks: list[Mark] = [Box(0, 0, laid.face.width, laid.face.height, "ink", filled=False)]
    for tile in laid.tiles:
        marks += _tile(tile)
    marks += [Ellipse(hole.x, hole.z, hole.across / 2, hole.across / 2, "ink", filled=False) for hole in laid.face.holes]
    title = f"{laid.face.name}: {laid.start.name}" if laid.start.name else laid.face.name
    return Drawing(title, tuple(marks), (-20, -20, laid.face.width + 40, laid.face.height + 40))


def told(choice: Choice) -> str:
    """A start in words: what it is, its smallest cut, and what it spoils."""
    spoils = "; ".join(choice.spoils) or "spoils nothing"
    return f"{choice.start.name}: smallest cut {measure.show_length(choice.smallest)} mm; {spoils}"


def drilled(laid: SetOut) -> Iterator[tuple[str, str, float, float, float]]:
    """Every hole in a tile: hole, tile by row and column, from its left, from its foot, and what is left to its edge, mm."""
    for one in laid.drilled:
        tile = laid.tiles[one.tile]
        yield one.hole.name, f"row {tile.row + 1}, tile {tile.column + 1}", one.x, one.z, one.edge


def _tile(tile: LaidTile) -> Iterator[Mark]:
    yield Box(tile.x, tile.z, tile.width, tile.height, "tile", filled=False)
    if tile.cut and max(tile.width, tile.height) >= _ROOM:
        size = f"{measure.show_length(tile.width)} × {measure.show_length(tile.height)}"
        turned = tile.width < tile.height
        yield Words(tile.x + tile.width / 2, tile.z + tile.height / 2, size, SIZE, turned=turned)
