"""The members that steel and timber have in common: uprights between a rail or plate on the floor and one along the top."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tundish import measure
from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.outline import Outline
from tundish.layout.rails import floor_rails, in_parts, top_rail
from tundish.layout.room import Member
from tundish.layout.supports import Stand


@dataclass(frozen=True, slots=True)
class Stuff:
    """What a pre-wall is framed with. Sections are (in the elevation's plane, in depth); `flat` is how high a rail lies."""

    outline: Outline
    role: str
    flat: Figure
    upright: tuple[float, float]
    rail: tuple[float, float]
    longest: float


def uprights(stuff: Stuff, stands: Sequence[Stand], what: str) -> Iterator[Member]:
    """U1, U2… from the left, between the rails; each cut to its place where the floor falls away, for the rail lies on the floor."""
    length = (stuff.outline.tops.steel - stuff.flat - stuff.flat).named(what.capitalize())
    if length.value <= 0:
        return
    across, deep = stuff.upright
    y = stuff.outline.depth.value - deep
    centres = [upright.value for stand in stands for upright in stand.uprights]
    for count, x in enumerate(centres, 1):
        where = f"centre {measure.show_length(x)} from left wall"
        drop = stuff.outline.drop_at(x) if stuff.outline.level.drop is not None else None
        own = length if drop is None else (length + drop).named(what.capitalize())
        z = stuff.flat.value - (drop.value if drop is not None else 0.0)
        yield Member(f"U{count}", what, stuff.role, own, "z", x - across / 2, y, z, stuff.upright, where)


def top(stuff: Stuff, supports: Sequence[Figure], book: Book, what: str) -> Iterator[Member]:
    """T1, or T1, T2… where no bar is long enough."""
    z = stuff.outline.tops.steel.value - stuff.flat.value
    yield from _rails(stuff, f"T {what}", [top_rail(stuff.outline.run, book)], supports, z)


def floor(stuff: Stuff, stands: Sequence[Stand], supports: Sequence[Figure], book: Book, what: str) -> Iterator[Member]:
    """F1, F2… in the gaps between frames."""
    gaps = [stand.gap for stand in stands]
    yield from _rails(stuff, f"F {what}", list(floor_rails(gaps, stuff.outline.run, book)), supports, 0.0)


def _rails(
    stuff: Stuff, named: str, ends: Sequence[tuple[Figure, Figure, Figure]], supports: Sequence[Figure], z: float
) -> Iterator[Member]:
    letter, what = named.split(" ", 1)
    y = stuff.outline.depth.value - stuff.rail[1]
    parts = [part for each in ends if each[2].value > 0 for part in in_parts(each, stuff.longest, supports)]
    for count, part in enumerate(parts, 1):
        where = f"from {measure.show_length(part.x)} from left wall" + (", joined on its right" if part.joined else "")
        length = part.length.named(what.capitalize())
        down = stuff.outline.drop_at(part.x + length.value / 2).value if letter == "F" else 0.0
        yield Member(f"{letter}{count}", what, stuff.role, length, "x", part.x, y, z - down, stuff.rail, where)
