"""What ties the head of each frame back."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Need, rule


@rule("frames/tie-rods", source="common practice: one for each bracket on the frame's head")
def tie_rods(room: Room, book: Book) -> Iterator[Need]:
    """Two tie rods hold the head of each frame.

    As many as the frame has wall brackets. One that reaches over the whole range of the depth is taken: out of the
    frame's kit where it serves, else the shortest.
    """
    for one in room.tied:
        if one.tie_rod is not None:
            yield Need(one.frame.size("brackets"), "frames", f"head of {one.name}", item=one.tie_rod.code)
