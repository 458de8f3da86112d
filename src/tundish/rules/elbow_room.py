"""How much room to either side of its centre whoever uses an appliance takes."""

from __future__ import annotations

from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Placed
from tundish.rules.clear_floor import for_hands_alone

ELBOWS: Final = (
    "space.wc_centre", "space.bidet_centre", "space.basin_centre", "space.hand_centre", "space.urinal_centre", "space.hand_basin",
)  # fmt: skip
"""The figures that it is read from."""


def half_of(one: Placed, book: Book) -> Figure:
    """Half of how wide its activity space is."""
    return book.figure("space.hand_centre" if for_hands_alone(one, book) else f"space.{one.kind}_centre")
