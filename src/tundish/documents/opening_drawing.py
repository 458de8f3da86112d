"""Doors and windows in the plan: the gap in the wall, the leaf and its swing. y runs down the page into the room."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from tundish.documents.drawing import Mark, Shape, Words
from tundish.field import must_read
from tundish.survey.wall import Opening

_WALLS: Final = {"A": (0, 0, 1, 0), "B": (1, 0, 0, -1), "C": (1, -1, -1, 0), "D": (0, -1, 0, 1)}
"""Each wall's left end as shares of (width, depth), and the way it runs seen from inside."""
_SWINGS: Final = {"into the room": 1, "out of the room": -1}
_STEPS: Final = 8
_WORD_IN: Final = 70.0
"""How far inside the room the word stands."""


def opening_marks(opening: Opening, room: tuple[float, float], wall: float) -> Iterator[Mark]:
    """One opening of a room (width, depth) whose walls are drawn so thick."""
    share_x, share_y, along_x, along_y = _WALLS[opening.wall]
    size, from_left = must_read(opening, "width").value, must_read(opening, "from_left").value
    x, y = share_x * room[0] + along_x * from_left, share_y * room[1] + along_y * from_left
    end = (x + along_x * size, y + along_y * size)
    # Into the room is to the right of the way a wall runs, seen from above.
    into = (float(along_y), float(-along_x))
    yield Shape(((x, y), end, (end[0] - into[0] * wall, end[1] - into[1] * wall), (x - into[0] * wall, y - into[1] * wall)), "ware")
    side = _SWINGS.get(opening.swing)
    if opening.kind == "door" and side is not None:
        hinge, other = ((x, y), end) if opening.hinge == "left" else (end, (x, y))
        yield Shape((hinge, *_arc(hinge, other, (into[0] * side * size, into[1] * side * size))), "room", filled=False)
    middle = ((x + end[0]) / 2 + into[0] * _WORD_IN, (y + end[1]) / 2 + into[1] * _WORD_IN)
    yield Words(*middle, opening.kind, 2.6, "room", turned=along_x == 0)


def beyond(marks: Iterator[Mark] | tuple[Mark, ...]) -> tuple[float, float, float, float]:
    """How far outlines reach: least x, least y, most x, most y; the origin where there are none."""
    points = [point for mark in marks if isinstance(mark, Shape) for point in mark.points] or [(0.0, 0.0)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _arc(hinge: tuple[float, float], shut: tuple[float, float], leaf: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """From the leaf standing open to where it shuts, a quarter of a circle round its hinge."""
    across = (shut[0] - hinge[0], shut[1] - hinge[1])
    for step in range(_STEPS + 1):
        turn = math.pi / 2 * step / _STEPS
        yield (
            hinge[0] + leaf[0] * math.cos(turn) + across[0] * math.sin(turn),
            hinge[1] + leaf[1] * math.cos(turn) + across[1] * math.sin(turn),
        )
