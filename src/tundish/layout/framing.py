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

LEAST = 50.0
"""Pieces of an upright shorter than this, under or over an opening, are left out."""
_NOTHING = 1e-9


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
    across, deep = stuff.upright
    y, count = stuff.outline.depth.value - deep, 0
    for x, on in ((upright.value, stand.on) for stand in stands for upright in stand.uprights):
        where = f"centre {measure.show_length(x)} from left wall"
        for z, length, words in _pieces(stuff, x, on):
            count += 1
            yield Member(
                f"U{count}", what, stuff.role, length.named(what.capitalize()), "z", x - across / 2, y, z, stuff.upright, where + words
            )


def _pieces(stuff: Stuff, x: float, on: Figure | None) -> Iterator[tuple[float, Figure, str]]:
    """Foot, length and more words of an upright: one piece, or those under and over the openings that it falls on."""
    half, outline = stuff.upright[0] / 2, stuff.outline
    drop = outline.drop_at(x) if outline.level.drop is not None and on is None else None
    low = on or stuff.flat
    last = outline.tops.steel - stuff.flat
    foot = low.value - (drop.value if drop is not None else 0.0)
    words = " on the head of the frame" if on is not None else ""
    crossed = [each for each in outline.recesses if each.between(x - half, x + half) and each.open_head.value > foot]
    for recess in sorted(crossed, key=lambda each: each.open_foot.value):
        length = recess.open_foot - stuff.flat - low
        length = length if drop is None else length + drop
        if length.value >= LEAST:
            yield foot, length, f"{words}, under {recess.name}"
        low, drop, words = (recess.open_head + stuff.flat).named("Trimmer"), None, f", over {recess.name}"
        foot = low.value
    length = last - low
    length = length if drop is None else length + drop
    if length.value >= (LEAST if crossed else _NOTHING):
        yield foot, length, words


def top(stuff: Stuff, supports: Sequence[Figure], book: Book, what: str) -> Iterator[Member]:
    """T1, or T1, T2… where no bar is long enough."""
    z = stuff.outline.tops.steel.value - stuff.flat.value
    yield from _rails(stuff, f"T {what}", [top_rail(stuff.outline.run, book)], supports, z)


def floor(stuff: Stuff, stands: Sequence[Stand], supports: Sequence[Figure], book: Book, what: str) -> Iterator[Member]:
    """F1, F2… in the gaps between frames."""
    gaps = [stand.gap for stand in stands if stand.on is None]
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
