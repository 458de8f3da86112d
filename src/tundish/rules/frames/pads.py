"""Sound kept out of the house's own walls and floors."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Need, rule


@rule("frames/pads", source="common practice")
def pads(room: Room, book: Book) -> Iterator[Need]:
    """A sound pad lies under every foot and behind every wall bracket."""
    for one in room.framed:
        amount = (one.frame.size("feet") + one.frame.size("brackets")).named(f"Feet and brackets of {one.name}")
        yield Need(amount, "frames", f"feet and brackets of {one.name}", role="sound pad")
