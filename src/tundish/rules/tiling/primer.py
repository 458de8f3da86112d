"""What bare boards are primed with before tiling."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.rules.faces import boarded_area
from tundish.rules.rule import Asked, Need, rule


@rule("tiling/primer", figures=("tiling.primer_ml_m2",), source="coverage from memory, see the bottle", reads="needs")
def primer(asked: Asked, book: Book) -> Iterator[Need]:
    """Boards are primed before tiling, unless they are tanked."""
    room = asked.room
    if not room.plan.design.finish.tanking:
        amount = (boarded_area(room) * book.figure("tiling.primer_ml_m2")).named("Primer")
        yield Need(amount, "boarding", "boards before tiling", role="primer")
