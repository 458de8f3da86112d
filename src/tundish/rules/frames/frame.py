"""A frame for every appliance."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Need, rule


@rule("frames/frame", source="common practice")
def frame(room: Room, book: Book) -> Iterator[Need]:
    """Each appliance hangs on a frame of its kind, and what is in the wall itself on a support bar."""
    for one in room.placed:
        yield Need(each(1, one.name), "frames", f"carries {one.name}", item=one.frame.code)
