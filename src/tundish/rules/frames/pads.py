"""Sound kept out of the house's own walls and floors."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.design import NO_PADS
from tundish.layout.room import Room
from tundish.rules.rule import Need, rule
from tundish.rules.soft import pads_of


@rule("frames/pads", source="common practice")
def pads(room: Room, book: Book) -> Iterator[Need]:
    """A sound pad lies under every foot and at every wall bracket.

    It lifts the foot by its thickness; at the bracket it lies under the nut, so that the tie rod reaches through it. Where the finished
    floor leaves less than that under the feet, the frame is set without, unless it is chosen otherwise.
    """
    for one in room.framed:
        if one.choice.pads != NO_PADS:
            amount, what = pads_of(room, one)
            yield Need(amount, "frames", f"{what} of {one.name}", role="sound pad")
