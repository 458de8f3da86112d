"""Packing where a floor build-up lifts a frame beyond its feet."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import whole_spaces
from tundish.rules.rule import Need, rule


@rule("frames/packers", figures=("frames.packer",), source="common practice")
def packers(room: Room, book: Book) -> Iterator[Need]:
    """Where the feet cannot reach, ply is packed under them.

    Reckoned for the feet at their longest: the build-up may still come out thicker. The packing may also be the trader's own choice.
    """
    for one in room.framed:
        packed = one.figures.get("packers")
        if packed is not None and packed.high > 0:
            count = whole_spaces(packed, book.figure("frames.packer"), "Packers under each foot")
            amount = (count * one.frame.size("feet")).named(f"Under the feet of {one.name}")
            yield Need(amount, "frames", f"under the feet of {one.name}", role="ply packer")
