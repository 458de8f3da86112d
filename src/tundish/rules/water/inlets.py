"""How what flushes is joined to its supply and to its pan."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Need, rule


@rule("water/inlets", source="common practice; threads by the makers' sheets, ISO 228-1")
def inlets(room: Room, book: Book) -> Iterator[Need]:
    """A cistern and a urinal's valve are screwed to their supply with a tap connector; a flush pipe joins a cistern to its pan."""
    for one in room.of_kind("wc", "urinal"):
        yield Need(each(1, one.name), "first fix", f"cold to {one.name}", role="tap connector 15")
        if one.kind == "wc":
            yield Need(each(1, one.name), "second fix", f"flush of {one.name}", role="flush pipe 55 with seals")
