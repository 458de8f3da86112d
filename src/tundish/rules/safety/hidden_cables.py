"""What may lie in the wall and the floor."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule


@rule("safety/hidden-cables", source="BS 7671, 522.6, as quoted on an electricians' page: zones of cables less than 50 mm deep", whole=True)
def hidden_cables(room: Room, book: Book) -> Iterator[Caution]:
    """Cables and pipes may be hidden where holes are drilled.

    Said wherever a frame is fixed to a wall and a floor; a registered electrician traces what is in doubt.
    """
    if room.plan.design.appliances:
        yield Caution(
            "Cables and pipes in wall and floor",
            "Go over wall and floor with a detector before drilling. Expect cables straight up, down and across from every fitting and "
            "within 150 mm of corners and ceiling, from the other side of a thin wall too. If in doubt, isolate, and have a "
            "registered electrician trace them.",
        )
