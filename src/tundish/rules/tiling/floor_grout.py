"""What fills the joints between the tiles of the floor."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.rules.floor_tiles import module_of
from tundish.rules.rule import Asked, Need, rule


@rule(
    "tiling/floor-grout",
    figures=("tiling.grout_density",),
    source="geometry of the joint; density agrees with a maker's published coverage table",
    reads="needs",
    whole=True,
)
def floor_grout(asked: Asked, book: Book) -> Iterator[Need]:
    """Where the floor is tiled, its joints are grouted full.

    The share of the area that is joint, by the thickness of the tile, by the weight of a litre of grout.
    """
    room = asked.room
    if room.floor is None:
        return
    module, tile = module_of(room.floor)
    share = (number(1, "", "All") - (tile / module).named("Share of tile")).named("Share of joint")
    joints = (room.floor.area * share * room.floor.tile.size("thickness")).named("Joints of the floor")
    yield Need(
        (joints * book.figure("tiling.grout_density")).named("Grout of the floor"), "boarding", "joints between floor tiles", role="grout"
    )
