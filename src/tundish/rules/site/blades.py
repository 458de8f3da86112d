"""What is worn out cutting."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.rules.faces import tiled_area
from tundish.rules.rule import Need, rule


@rule("site/blades", figures=("site.discs_m2", "site.blade_frames"), source="common practice; what a disc lasts from memory")
def blades(room: Room, book: Book) -> Iterator[Need]:
    """Tiles wear out a diamond disc, and studs, rods and pipe a hacksaw blade.

    By the area that is tiled, and by the appliances hung; what is begun is wanted whole. The disc for strut is among the small things.
    """
    tiled = tiled_area(room)
    if room.floor is not None:
        tiled = (tiled + room.floor.area).named("Walls and floor tiled")
    if tiled.value > 0:
        yield Need((tiled * book.figure("site.discs_m2")).named("Diamond discs"), "boarding", "cutting tiles", role="diamond disc")
    if room.framed:
        hung = number(len(room.framed), "each", "Appliances hung")
        yield Need(
            (hung / book.figure("site.blade_frames")).named("Blades"), "frames", "cutting studs, rods and pipe", role="hacksaw blade"
        )
