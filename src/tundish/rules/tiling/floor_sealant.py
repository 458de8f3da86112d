"""The bead round a tiled floor."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted
from tundish.rules.rule import Asked, Need, rule


@rule(
    "tiling/floor-sealant",
    figures=("tiling.sealant_ml_m",),
    source="common practice: a tiled floor moves, and is grouted to nothing that stands; a bead of 6 by 6 mm",
    reads="needs",
    whole=True,
)
def floor_sealant(asked: Asked, book: Book) -> Iterator[Need]:
    """Where the floor is tiled, a bead goes round it: along the walls and round what stands there.

    The foot of a pre-wall has its bead by the rule for sealant.
    """
    room = asked.room
    if room.floor is not None:
        metres = converted(room.floor.rim, "m", "Round the floor")
        yield Need(
            (metres * book.figure("tiling.sealant_ml_m")).named("Sealant of the floor"), "second fix", "round the floor", role="sealant"
        )
