"""Packing where a floor build-up lifts a frame beyond its feet."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, between, largest, number
from tundish.layout.room import Room
from tundish.rules.amounts import whole_spaces
from tundish.rules.rule import Need, rule


@rule("frames/packers", figures=("frames.packer",), source="common practice")
def packers(room: Room, book: Book) -> Iterator[Need]:
    """Where the feet cannot reach, ply is packed under them.

    Reckoned for the feet at their longest: the build-up may still come out thicker.
    """
    for one in room.placed:
        beyond = _at_longest(one.figures["feet"]) - one.frame.size("foot_travel")
        if beyond.high > 0:
            high = whole_spaces(largest(beyond, number(0)), book.figure("frames.packer"), "Packers under each foot")
            amount = (high * one.frame.size("feet")).named(f"Under the feet of {one.name}")
            yield Need(amount, "frames", f"under the feet of {one.name}", role="ply packer")


def _at_longest(feet: Figure) -> Figure:
    return feet if feet.low == feet.high else between(feet.high, feet.low, feet.high, label="Feet at their longest")
