"""What lies between the pre-wall's own steel or timber and the house."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import in_all
from tundish.rules.rule import Need, rule
from tundish.rules.soft import strips_of


@rule("noise/strip", figures=("noise.at_tie",), source="common practice: foam under what is screwed down, as under partition track")
def strip(room: Room, book: Book) -> Iterator[Need]:
    """A strip of foam lies under every floor rail and behind every tie to the wall.

    Under the whole of a rail or sole plate, as much as the foot of a tie is long, and as a deep foot of a self-standing pre-wall is
    deep. Frames have pads of their own; end uprights stand clear of the side walls.
    """
    lengths, what = strips_of(room, book)
    if lengths:
        yield Need(in_all(lengths, "pieces", "Strip under rails, ties and feet"), "frames", what, role="sound strip")
