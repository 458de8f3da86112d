"""Doors, windows and what stands in the room, in plan, along one wall: x along it, y down the page into the room."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Final

from tundish.documents.drawing import Box, Line, Mark, Shape, Words
from tundish.field import must_read
from tundish.survey.shape import Obstacle
from tundish.survey.wall import Opening

_SWINGS: Final = {"into the room": -1, "out of the room": 1}
_STEPS: Final = 8
_WORD_IN: Final = 70.0
"""How far inside the room the word stands."""


def opening_marks(opening: Opening, wall: float) -> Iterator[Mark]:
    """One opening of a wall that is drawn so thick: the gap, a window's panes, a door's leaf and swing."""
    x, size = must_read(opening, "from_left").value, must_read(opening, "width").value
    yield Box(x, 0, size, wall, "ware")
    if opening.kind == "window":
        yield Line(x, wall / 2, x + size, wall / 2, "ink")
    side = _SWINGS.get(opening.swing)
    if opening.kind == "door" and side is not None:
        hinge, other = (x, x + size) if opening.hinge == "left" else (x + size, x)
        yield Shape(((hinge, 0), *_arc(hinge, other, side * size)), "room", filled=False)
    yield Words(x + size / 2, -_WORD_IN, opening.kind, 2.6, "room", loose="near")


def obstacle_marks(obstacle: Obstacle) -> Iterator[Mark]:
    """Something in the room that stays, dashed, with what it is."""
    x, out = must_read(obstacle, "from_left").value, must_read(obstacle, "from_wall").value
    wide, deep = must_read(obstacle, "width").value, must_read(obstacle, "depth").value
    yield Box(x, -out - deep, wide, deep, "hidden")
    yield Words(x + wide / 2, -out - deep / 2, obstacle.name.strip() or obstacle.what, 2.6, "hidden", most=wide, loose="near")


def beyond(marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """How far outlines reach: least x, least y, most x, most y; the origin where there are none."""
    points = [point for mark in marks if isinstance(mark, Shape) for point in mark.points] or [(0.0, 0.0)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _arc(hinge: float, shut: float, leaf: float) -> Iterator[tuple[float, float]]:
    """From the leaf standing open to where it shuts, a quarter of a circle round its hinge."""
    for step in range(_STEPS + 1):
        turn = math.pi / 2 * step / _STEPS
        yield hinge + (shut - hinge) * math.sin(turn), leaf * math.cos(turn)
