"""Hours for leaving the room as it should be left."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import total
from tundish.rules.rule import LABOUR, Asked, Need, rule


@rule("labour/making-good", figures=("labour.clear",), source="invented for the demonstration: put in your own", reads="needs", whole=True)
def making_good(asked: Asked, book: Book) -> Iterator[Need]:
    """Hours for making good, from the trader's own norms.

    Clearing away and showing the work, once for each room.
    """
    yield Need(total([book.figure("labour.clear")], "Making good"), "making good", "clear away and show", role=LABOUR)
