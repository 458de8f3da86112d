"""Sound kept out of the house's own walls and floors."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Need, rule
from tundish.rules.soft import pads_of


@rule("frames/pads", source="common practice")
def pads(room: Room, book: Book) -> Iterator[Need]:
    """A sound pad lies under every foot and behind every wall bracket."""
    for one in room.framed:
        amount, what = pads_of(room, one)
        yield Need(amount, "frames", f"{what} of {one.name}", role="sound pad")
