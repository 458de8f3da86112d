"""Small things that are missed only when they are missing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Need, rule

_SMALL: Final = ("PTFE tape", "silicone lubricant", "cleaning wipes", "marker labels", "cutting disc")


@rule("site/small", source="common practice", whole=True)
def small(room: Room, book: Book) -> Iterator[Need]:
    """Small things no job is without.

    One of each for every room.
    """
    for role in _SMALL:
        yield Need(each(1, room.room_name), "first fix", "no job is without", role=role)
