"""Flat shapes without a dent in plan: what two of them have in common."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from tundish.layout.walls import Point


def common(one: Sequence[Point], other: Sequence[Point]) -> tuple[Point, ...]:
    """The corners of what two shapes have in common, by cutting one with every edge of the other; nothing where they only touch."""
    left = list(one)
    edges = list(pairwise((*other, other[0])))
    if _area(other) < 0:
        edges = [(b, a) for a, b in reversed(edges)]
    for a, b in edges:
        left = _cut(left, a, b)
    return tuple(left) if abs(_area(left)) > _NOTHING else ()


def box(left: float, right: float, near: float, far: float) -> tuple[Point, ...]:
    """A rectangle square to the wall."""
    return (left, near), (right, near), (right, far), (left, far)


def within(line: tuple[Point, Point], corner: Point, size: tuple[float, float]) -> tuple[Point, Point] | None:
    """As much of a straight line as lies within a rectangle, from the corner of that; None where it does not cross it."""
    (x, y), (other_x, other_y) = line
    shares = shares_within(line, corner, size, _ALONG)
    if shares is None or (shares[1] - shares[0]) * max(abs(other_x - x), abs(other_y - y)) < _ALONG:
        return None
    ends = [(x + (other_x - x) * share - corner[0], y + (other_y - y) * share - corner[1]) for share in shares]
    return ends[0], ends[1]


def shares_within(line: tuple[Point, Point], corner: Point, size: tuple[float, float], along: float) -> tuple[float, float] | None:
    """From what share of a straight line to what share it lies within a rectangle, the first beyond the second where it passes it by.

    None where it lies along a side, by no more than `along` off that way, outside the rectangle.
    """
    least, most = 0.0, 1.0
    for at, other, low, wide in zip(*line, corner, size, strict=True):
        way = other - at
        if abs(way) < along:
            if not low < at < low + wide:
                return None
            continue
        near, far = sorted(((low - at) / way, (low + wide - at) / way))
        least, most = max(least, near), min(most, far)
    return least, most


def area_of_shape(shape: Sequence[Point]) -> float:
    """How much a shape covers, mm²."""
    return abs(_area(shape))


_NOTHING = 1.0
"""A square millimetre."""
_ALONG = 0.5


def _cut(shape: Sequence[Point], a: Point, b: Point) -> list[Point]:
    kept: list[Point] = []
    for one, other in pairwise((*shape, *shape[:1])):
        here, there = _side(a, b, one), _side(a, b, other)
        if here >= 0:
            kept.append(one)
        if (here > 0 > there) or (here < 0 < there):
            share = here / (here - there)
            kept.append((one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share))
    return kept


def _side(a: Point, b: Point, place: Point) -> float:
    return (b[0] - a[0]) * (place[1] - a[1]) - (b[1] - a[1]) * (place[0] - a[0])


def _area(shape: Sequence[Point]) -> float:
    return sum(a[0] * b[1] - a[1] * b[0] for a, b in pairwise((*shape, *shape[:1]))) / 2
