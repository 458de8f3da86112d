"""The bead wherever tiles meet something that moves."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, converted, total
from tundish.layout.room import Placed, Room
from tundish.rules.faces import front_of, shelf_of
from tundish.rules.rule import Asked, Need, rule


@rule(
    "tiling/sealant",
    figures=("tiling.sealant_ml_m", "tiling.sealant_ware"),
    source="a bead of 6 by 6 mm: millilitres a metre are its section in mm²",
    reads="needs",
)
def sealant(asked: Asked, book: Book) -> Iterator[Need]:
    """Where tiles meet floor, wall and ware there is a bead.

    Along the floor, up each end that meets a wall, along the back of the shelf, behind each basin, and 600 round a WC, bidet or urinal.
    """
    metres = converted(total(_beads(asked.room, book), "Beads"), "m", "Beads")
    yield Need((metres * book.figure("tiling.sealant_ml_m")).named("Sealant"), "second fix", "floor, walls and ware", role="sealant")


def _beads(room: Room, book: Book) -> list[Figure]:
    front, shelf = front_of(room), shelf_of(room)
    beads = [front.tiled_width.named("Along the floor")]
    beads += [front.tiled_height.named("Up a wall")] * sum(room.at_wall)
    if shelf:
        beads.append(shelf.tiled_width.named("Back of the shelf"))
    return beads + [_at(one, book) for one in room.framed]


def _at(one: Placed, book: Book) -> Figure:
    return (one.ware.size("width") if one.kind == "basin" else book.figure("tiling.sealant_ware")).named(f"At {one.name}")
