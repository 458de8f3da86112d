"""How a face is laid with pieces of board: as large as a sheet gives, every joint between two on a support."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number, smallest


@dataclass(frozen=True, slots=True)
class Lay:
    """A face to be laid: its sizes, and where its left edge is."""

    width: Figure
    height: Figure
    left: Figure


CLEAR: Final = 100.0
"""From a joint to the side of an opening, mm, where another support can be had: common practice, boards crack from its corners."""


@dataclass(frozen=True, slots=True)
class Shun:
    """Where no joint is wanted, by x: beside the sides of openings, and on the joints of the layer behind (NBS clause 612).

    Of a layer on another the rows start with half a sheet.
    """

    sides: tuple[float, ...] = ()
    behind: tuple[float, ...] = ()

    def at(self, x: float) -> bool:
        """Whether no joint is wanted there."""
        return any(abs(x - side) < CLEAR for side in self.sides) or any(abs(x - joint) < _NEAR for joint in self.behind)


_NONE: Final = Shun()
_NEAR: Final = 1.0
_LEAST: Final = 0.25
"""Share of a sheet that a piece is at least, where a joint is put on a nearer support."""


@dataclass(frozen=True, slots=True)
class Laid:
    """One piece; `x` from where `left` is reckoned, `z` from the foot of the face."""

    width: Figure
    height: Figure
    x: float
    z: float


def sheet_of(board: Item, book: Book) -> tuple[float, float]:
    """Long and short side of the largest sheet: by its own sizes, or by what is offered; without end where neither says."""
    sizes = [(offer.length, offer.width) for offer in book.offers.get(board.code, ())]
    if board.has("length") and board.has("width"):
        sizes = [(board.sizes["length"][0], board.sizes["width"][0])]
    known = [(max(each), min(each)) for each in sizes if min(each) > 0]
    return max(known, key=lambda each: each[0] * each[1], default=(math.inf, math.inf))


def lay(face: Lay, sheet: tuple[float, float], supports: Sequence[Figure], shun: Shun = _NONE) -> Iterator[Laid]:
    """The pieces of one layer, row by row from the foot, left to right.

    Lying in one row where the face is no higher than a sheet is wide; standing where no higher than it is long; else in rows. What is
    still undecided is laid for the highest it may be, so that the pieces fit on sheets whatever is decided.
    """
    if face.width.value <= 0 or face.height.value <= 0:
        return
    long, short = sheet
    high = round(face.height.high, 6)
    standing = short < high <= long
    rows = [(0.0, face.height)] if high <= long else list(_rows(face.height, short, short / 2 if shun.behind else short))
    columns = list(_columns(face, short if standing else long, supports, shun))
    for z, height in rows:
        for x, width in columns:
            yield Laid(width, height, x, z)


def _rows(height: Figure, short: float, first: float) -> Iterator[tuple[float, Figure]]:
    """The first row, rows a sheet high and the remainder, each no higher than a sheet however high the face turns out."""
    foot, most = 0.0, first
    while round(height.high - foot, 6) > 0:
        rest = height if not foot else (height - number(foot, label="Rows below")).named("Height of board")
        if rest.value <= 0:
            return
        row = number(most, label="Width of a sheet")
        if rest.low >= most:
            yield foot, row
        else:
            yield foot, rest if rest.high <= most else smallest(rest, row, label="Height of board")
        foot, most = foot + most, short


def _columns(face: Lay, widest: float, supports: Sequence[Figure], shun: Shun) -> Iterator[tuple[float, Figure]]:
    """Left edges and widths, every joint on a support: as few as can be where they are not wanted, then as few as can be, each far on."""
    end = face.left.value + face.width.value
    onwards: dict[float, _Cost] = {}
    for each in reversed(supports):
        done = round(end - each.value, 6) <= widest
        onwards[each.value] = (0, 0) if done else min((way[0] for way in _ways(each.value, widest, onwards, shun)), default=(0, 1))
    named = {each.value: each for each in supports}
    joints = [face.left]
    while round(end - joints[-1].value, 6) > widest:
        at = joints[-1]
        ways = [(*way, -x) for way, x in _ways(at.value, widest, onwards, shun)]
        whole = at + number(widest / 2 if shun.at(at.value + widest) else widest, label="Widest piece of a sheet")
        joints.append(named[-min(ways)[-1]] if ways else whole)
    if len(joints) == 1:
        yield face.left.value, face.width
        return
    for one, other in pairwise(joints):
        yield one.value, (other - one).named("Width of board")
    rest = face.left + face.width - joints[-1]
    yield joints[-1].value, rest.named("Width of board")


_Cost = tuple[int, int]
"""How many joints are where they are not wanted, and how many there are."""


def _ways(at: float, widest: float, onwards: Mapping[float, _Cost], shun: Shun) -> Iterator[tuple[_Cost, float]]:
    """The supports that a sheet reaches from a joint, each with what it costs to go on from there."""
    for x, (bad, count) in onwards.items():
        if at < x <= at + widest:
            narrow = bool(shun.sides or shun.behind) and x - at < _LEAST * widest
            yield (bad + shun.at(x) + narrow, count + 1), x
