"""Fittings that the pre-wall would bury."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.clip import common
from tundish.layout.footprints import of_prewall
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule


@rule("safety/electrics-behind", source="BS 7671, 526.3: joints stay accessible, from memory")
def electrics_behind(room: Room, book: Book) -> Iterator[Caution]:
    """No electrical fitting or joint is closed in behind a pre-wall.

    Said of everything electrical that was seen where the pre-wall is to stand, and that stays.
    """
    behind = [one.name for one in room.around.of("electric") if one.top < room.top.value and common(one.shape, of_prewall(room))]
    if behind:
        yield Caution(
            "Electrics behind the pre-wall",
            f"{', '.join(behind).capitalize()}: closed in here. Have a registered electrician take it out or bring it forward, its cable "
            "made safe, before the wall is closed. Isolate, and prove it dead.",
        )
