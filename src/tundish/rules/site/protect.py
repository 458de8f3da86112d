"""What the house is covered with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Need, rule


@rule("site/protect", figures=("site.dust_sheets",), source="common practice", whole=True)
def protect(room: Room, book: Book) -> Iterator[Need]:
    """Floors and stairs are covered.

    Two sheets for each room.
    """
    yield Need(book.figure("site.dust_sheets"), "strip out", "floors and stairs", role="dust sheet")
