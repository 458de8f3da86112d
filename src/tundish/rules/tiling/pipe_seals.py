"""What shuts the gap round every pipe."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted, total
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.rules.amounts import several
from tundish.rules.rule import Need, rule


@rule(
    "tiling/pipe-seals",
    figures=("tiling.pipe_bead", "tiling.sealant_ml_m"),
    source="common practice: neither damp nor sound passes round a pipe",
)
def pipe_seals(room: Room, book: Book) -> Iterator[Need]:
    """Where boards are not tanked, sealant shuts the gap round every pipe that comes through them.

    Two pipes for a WC or urinal, three for a basin or bidet. Where they are tanked, collars do it.
    """
    if room.plan.design.finish.tanking or not room.placed:
        return
    holes = total([several(len(KINDS[one.kind].collars), one.name) for one in room.placed], "Pipes through the boards")
    metres = converted(holes * book.figure("tiling.pipe_bead"), "m", "Beads round pipes")
    yield Need((metres * book.figure("tiling.sealant_ml_m")).named("Round pipes"), "second fix", "round pipes", role="sealant")
