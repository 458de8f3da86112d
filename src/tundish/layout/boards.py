"""How a face is laid with pieces of board: as large as a sheet gives, every joint between two on a support."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number, smallest


@dataclass(frozen=True, slots=True)
class Lay:
    """A face to be laid: its sizes, and where its left edge is."""

    width: Figure
    height: Figure
    left: Figure


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


def lay(face: Lay, sheet: tuple[float, float], supports: Sequence[Figure]) -> Iterator[Laid]:
    """The pieces of one layer, row by row from the foot, left to right.

    Lying in one row where the face is no higher than a sheet is wide; standing where no higher than it is long; else in rows. What is
    still undecided is laid for the highest it may be, so that the pieces fit on sheets whatever is decided.
    """
    if face.width.value <= 0 or face.height.value <= 0:
        return
    long, short = sheet
    high = round(face.height.high, 6)
    standing = short < high <= long
    rows = [(0.0, face.height)] if high <= long else list(_rows(face.height, short))
    columns = list(_columns(face, short if standing else long, supports))
    for z, height in rows:
        for x, width in columns:
            yield Laid(width, height, x, z)


def _rows(height: Figure, short: float) -> Iterator[tuple[float, Figure]]:
    """Rows a sheet high and the remainder, each no higher than a sheet however high the face turns out."""
    row = number(short, label="Width of a sheet")
    for place in range(math.ceil(round(height.high / short, 9))):
        rest = height if not place else (height - (row * number(place, "", "Rows")).named("Rows below")).named("Height of board")
        if rest.value <= 0:
            return
        if rest.low >= short:
            yield place * short, row
        else:
            yield place * short, rest if rest.high <= short else smallest(rest, row, label="Height of board")


def _columns(face: Lay, widest: float, supports: Sequence[Figure]) -> Iterator[tuple[float, Figure]]:
    """Left edges and widths, each joint on the furthest support that a sheet reaches from the last one."""
    end = face.left.value + face.width.value
    joints = [face.left]
    while round(end - joints[-1].value, 6) > widest:
        at = joints[-1]
        on = [each for each in supports if at.value < each.value <= at.value + widest]
        joints.append(max(on, key=lambda each: each.value, default=at + number(widest, label="Widest piece of a sheet")))
    if len(joints) == 1:
        yield face.left.value, face.width
        return
    for one, other in pairwise(joints):
        yield one.value, (other - one).named("Width of board")
    rest = face.left + face.width - joints[-1]
    yield joints[-1].value, rest.named("Width of board")
