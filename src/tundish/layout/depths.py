"""The chain of depths of a pre-wall, from the face of wall A into the room: frame front, covering, finished face."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, total
from tundish.layout.design import Finish
from tundish.layout.inputs import Inputs
from tundish.layout.makers import size


@dataclass(frozen=True, slots=True)
class Covering:
    """What lies on the front of the frames: boards in so many layers, bed and tile; `thickness` is all of it."""

    layers: int
    boards: Figure
    bed: Figure
    tile: Figure
    thickness: Figure


def covering(finish: Finish, board: Item, tile: Item, book: Book, inputs: Inputs) -> Covering:
    """Boards, bed and tile, and how thick they are together."""
    layers = inputs.sure(finish, "layers", "design.finish")
    boards = (size(board, "thickness", "Board") * layers).named("Boards")
    bed = book.figure("tiling.bed")
    tiles = size(tile, "thickness", "Tile")
    return Covering(int(layers.value), boards, bed, tiles, total([boards, bed, tiles], "Boards, bed and tile"))


def finished_face(depth: Figure, thickness: Figure) -> Figure:
    """From the face of wall A to the face of the tiles."""
    return (depth + thickness).named("Wall to finished face")
