"""Water that must not come back into the supply."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule


@rule(
    "safety/backflow",
    source="Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraph 15, from memory; air gaps: the regulator's guidance",
)
def backflow(room: Room, book: Book) -> Iterator[Caution]:
    """Foul water is kept from coming back into the supply.

    Said where there is a WC, bidet or urinal: what is in them is of the worst category.
    """
    names = [one.name for one in room.of_kind("wc", "bidet", "urinal")]
    if names:
        bidet = " A bidet with a spray below its rim, or a hose, may need an air gap of its own." if room.of_kind("bidet") else ""
        yield Caution(
            "Backflow",
            f"{', '.join(names)}: keep the air gap or backflow protection that the maker builds in, and use approved fittings.{bidet} "
            "The water company may have to be told first.",
        )
