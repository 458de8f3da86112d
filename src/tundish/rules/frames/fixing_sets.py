"""What each appliance is hung with."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Need, rule

_SETS: Final = {"wc": "fixing set M12", "bidet": "fixing set M12", "basin": "fixing set M10", "urinal": "fixing set M10"}


@rule("frames/fixing-sets", source="common practice; sizes of the studs from memory")
def fixing_sets(room: Room, book: Book) -> Iterator[Need]:
    """Each appliance is hung with one fixing set of studs, sleeves and nuts.

    M12 for WC and bidet, M10 for basin and urinal. Many frames bring theirs; what a kit holds is not bought again.
    """
    for one in room.placed:
        yield Need(each(1, one.name), "second fix", f"hangs {one.name}", role=_SETS[one.kind])
