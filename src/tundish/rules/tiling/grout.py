"""What fills the joints between tiles."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.rules.faces import tiled_area
from tundish.rules.joints import joint_share
from tundish.rules.rule import Asked, Need, rule


@rule(
    "tiling/grout",
    figures=("tiling.grout_density",),
    source="geometry of the joint; density agrees with a maker's published coverage table",
    reads="needs",
)
def grout(asked: Asked, book: Book) -> Iterator[Need]:
    """Joints are grouted full.

    The share of the area that is joint, by the thickness of the tile, by the weight of a litre of grout.
    """
    room = asked.room
    joints = tiled_area(room) * joint_share(room) * room.tile.size("thickness")
    amount = (joints.named("Joints") * book.figure("tiling.grout_density")).named("Grout")
    yield Need(amount, "boarding", "joints between tiles", role="grout")
