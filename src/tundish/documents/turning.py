"""Marks drawn along one wall seen from above, x along it and y up the page out of the room, laid where that wall is in the whole plan."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from tundish.documents.drawing import Anchor, Box, Dimension, Ellipse, Line, Mark, Shape, Words
from tundish.layout.walls import WallSide

Point = tuple[float, float]
_ROUND: Final = 24
"""Corners of an ellipse that is turned."""


def turned(marks: Iterable[Mark], side: WallSide, lead: str = "") -> Iterator[Mark]:
    """The same marks at another wall; `lead` goes before the ids of their pieces. Words stay level."""
    for mark in marks:
        piece = f"{lead}{mark.piece}" if mark.piece else ""
        match mark:
            case Line():
                yield Line(*at(side, mark.x1, mark.y1), *at(side, mark.x2, mark.y2), mark.style, piece)
            case Box():
                x, y, right, top = mark.x, mark.y, mark.x + mark.width, mark.y + mark.height
                corners = ((x, y), (right, y), (right, top), (x, top))
                yield Shape(tuple(at(side, *each) for each in corners), mark.style, piece, mark.filled)
            case Shape():
                yield Shape(tuple(at(side, *each) for each in mark.points), mark.style, piece, mark.filled)
            case Ellipse():
                yield Shape(tuple(at(side, *each) for each in _ring(mark)), mark.style, piece, mark.filled)
            case Words():
                x, y = at(side, mark.x, mark.y)
                names = at(side, *mark.names) if mark.names else None
                yield replace(mark, x=x, y=y, anchor=_anchor(mark, side, x), turned=False, piece=piece, figure="", names=names)
            case Dimension():
                yield Dimension(*at(side, mark.x1, mark.y1), *at(side, mark.x2, mark.y2), mark.text, piece, mark.figure, mark.tbc)


def at(side: WallSide, x: float, y: float) -> Point:
    """A place along a wall, y out of the room, on the page of the whole plan."""
    along, out = side.in_plan(x, -y)
    return along, -out


def _anchor(mark: Words, side: WallSide, x: float) -> Anchor:
    """Words without a width of their own begin or end where they are put beside a wall that runs up the page: they keep off it."""
    wall, _ = at(side, mark.x, 0.0)
    if mark.anchor != "middle" or mark.most or abs(x - wall) <= abs(mark.y) / 2:
        return mark.anchor
    return "start" if x > wall else "end"


def _ring(mark: Ellipse) -> Iterator[Point]:
    for step in range(_ROUND):
        turn = 2 * math.pi * step / _ROUND
        yield mark.x + mark.half_width * math.cos(turn), mark.y + mark.half_height * math.sin(turn)
