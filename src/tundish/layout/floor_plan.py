"""A floor as it is to be tiled: the room's outline less what stands on it, cut into parts without a dent."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from typing import Final, NamedTuple

from tundish.layout.clip import common
from tundish.layout.walls import Point

Outline = tuple[Point, ...]
_NEAR: Final = 1e-6


class Stood(NamedTuple):
    """Something that the tiles go round: what it is called, and its foot in plan."""

    name: str
    foot: Outline


class FloorPlan(NamedTuple):
    """What of a floor's rectangle is tiled: its free parts, the room's walls, and what stands there."""

    parts: tuple[Outline, ...]
    walls: Outline
    stands: tuple[Stood, ...]


class Part(NamedTuple):
    """What is left of a rectangle: the least box round it, and how much it is, mm²."""

    x: float
    z: float
    width: float
    height: float
    area: float


class _Edge(NamedTuple):
    low: float
    high: float
    middle: float


def free_parts(walls: Outline, feet: Sequence[Outline]) -> tuple[Outline, ...]:
    """The floor within the walls that no foot stands on, in parts level above and below, each by its four corners from its lower left.

    The shapes may have dents and may overlap; what of a foot lies outside the walls does not count.
    """
    shapes = (walls, *feet)
    made = []
    for low, high in pairwise(_levels(shapes)):
        middle = (low + high) / 2
        edges = sorted(_crossing(shapes, low, high), key=lambda one: one.middle)
        free: list[tuple[_Edge, _Edge]] = []
        for left, right in pairwise(edges):
            place = ((left.middle + right.middle) / 2, middle)
            if right.middle - left.middle < _NEAR or not inside(walls, place) or any(inside(foot, place) for foot in feet):
                continue
            if free and abs(free[-1][1].middle - left.middle) < _NEAR:
                free[-1] = (free[-1][0], right)
            else:
                free.append((left, right))
        made += [((left.low, low), (right.low, low), (right.high, high), (left.high, high)) for left, right in free]
    return tuple(made)


def inside(shape: Outline, place: Point) -> bool:
    """Whether a place lies within a shape; on its edge it may come out either way."""
    x, y = place
    found = False
    for (ax, ay), (bx, by) in pairwise((*shape, shape[0])):
        if (ay > y) != (by > y) and x < ax + (bx - ax) * (y - ay) / (by - ay):
            found = not found
    return found


def area_of(parts: Sequence[Outline]) -> float:
    """How much floor the parts are together, mm²."""
    return sum((right - left + far - near) * (high - low) / 2 for (left, low), (right, _), (far, high), (near, _) in parts)


def rim_of(parts: Sequence[Outline]) -> float:
    """How long the edges of the floor are, round the room and round what stands there, mm."""
    sides = sum(math.dist(part[1], part[2]) + math.dist(part[3], part[0]) for part in parts)
    level = sum(part[1][0] - part[0][0] + part[2][0] - part[3][0] for part in parts)
    met = sum(
        max(0.0, min(below[2][0], above[1][0]) - max(below[3][0], above[0][0]))
        for below in parts
        for above in parts
        if abs(below[2][1] - above[0][1]) < _NEAR
    )
    return sides + level - 2 * met


def part_in(parts: Sequence[Outline], box: tuple[float, float, float, float]) -> Part | None:
    """What of a rectangle, given by left, foot, right and top, lies on the parts; None where nothing does."""
    found = [one for part in parts if (one := _common(part, box)) is not None]
    if not found:
        return None
    left, foot = min(one.x for one in found), min(one.z for one in found)
    right, top = max(one.x + one.width for one in found), max(one.z + one.height for one in found)
    return Part(left, foot, right - left, top - foot, sum(one.area for one in found))


def _levels(shapes: Sequence[Outline]) -> list[float]:
    """Every level at which a corner lies or two edges cross."""
    edges = [edge for shape in shapes for edge in pairwise((*shape, shape[0]))]
    found = sorted({y for shape in shapes for _, y in shape} | set(_crossings(edges)))
    return [level for place, level in enumerate(found) if place == 0 or level - found[place - 1] > _NEAR]


def _crossings(edges: Sequence[tuple[Point, Point]]) -> Iterator[float]:
    for (a, b), (c, d) in combinations(edges, 2):
        turn = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
        if abs(turn) > _NEAR:
            share = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / turn
            other = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / turn
            if 0 < share < 1 and 0 < other < 1:
                yield a[1] + share * (b[1] - a[1])


def _crossing(shapes: Sequence[Outline], low: float, high: float) -> Iterator[_Edge]:
    """Every edge between two levels, where it is at them and half way."""
    middle = (low + high) / 2
    for shape in shapes:
        for (ax, ay), (bx, by) in pairwise((*shape, shape[0])):
            if (ay > middle) != (by > middle):
                lean = (bx - ax) / (by - ay)
                yield _Edge(ax + (low - ay) * lean, ax + (high - ay) * lean, ax + (middle - ay) * lean)


def _common(part: Outline, box: tuple[float, float, float, float]) -> Part | None:
    """What a part and a rectangle have in common."""
    left, foot, right, top = box
    low, high = max(foot, part[0][1]), min(top, part[2][1])
    if high - low < _NEAR or min(part[0][0], part[3][0]) >= right or max(part[1][0], part[2][0]) <= left:
        return None
    if part[0][0] == part[3][0] and part[1][0] == part[2][0]:
        near, far = max(left, part[0][0]), min(right, part[1][0])
        return Part(near, low, far - near, high - low, (far - near) * (high - low)) if far - near > _NEAR else None
    shape = common(part, ((left, foot), (right, foot), (right, top), (left, top)))
    if not shape:
        return None
    xs, zs = [x for x, _ in shape], [z for _, z in shape]
    area = abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in pairwise((*shape, shape[0])))) / 2
    return Part(min(xs), min(zs), max(xs) - min(xs), max(zs) - min(zs), area)
