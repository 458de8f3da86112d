"""The largest circle that lies free on a floor: within the walls, clear of everything that stands there."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from itertools import combinations, count, pairwise
from typing import Final, NamedTuple

from tundish.layout.floor_plan import Outline, inside
from tundish.layout.walls import Point


class Circle(NamedTuple):
    """A circle in plan by its middle and its radius."""

    x: float
    y: float
    radius: float


def largest_circle(walls: Outline, taken: Sequence[Outline]) -> Circle | None:
    """The largest circle within the walls that no shape reaches into, its radius within a tenth of a millimetre of the largest there is.

    None where no more is free than a foot stands on. Squares of the floor are quartered, the most promising first. How far a place is clear
    changes by no more than one moves, and between two sites it is no more than half of what lies between them: squares that cannot hold
    a larger circle are let go, so that what is found is the largest, and not only large.
    """
    floor = _Floor(walls, tuple(taken), tuple(_edges((walls, *taken))))
    order, waiting = count(), list[tuple[float, int, _Square]]()
    best = Circle(0.0, 0.0, _LEAST)
    parts = [_whole(floor)]
    while parts:
        for part in parts:
            seen = _looked_at(part, floor)
            best = max(best, Circle(part.x, part.y, seen.clear), key=lambda one: one.radius)
            if seen.most > best.radius + _NEAR_ENOUGH:
                best = _between_both(part, seen, floor, best)
                # Once a square is free throughout, what is in it need not be asked of again.
                edges = tuple(each.edge for each in seen.near)
                heappush(waiting, (-seen.most, next(order), part._replace(edges=edges, mixed=part.mixed and seen.clear < part.reach)))
        parts = list(_quarters(heappop(waiting)[2])) if waiting and -waiting[0][0] > best.radius + _NEAR_ENOUGH else []
    return best if best.radius > _LEAST else None


def gap_to(circle: Circle, shape: Outline) -> float:
    """How far a circle is from the nearest edge of a shape or a line; below zero where that comes into it."""
    middle = _Square(circle.x, circle.y, 0.0, (), mixed=False)
    return min((_away(middle, edge, 0.0).far for edge in _edges((shape,))), default=math.inf) - circle.radius


class _Edge(NamedTuple):
    """An edge from (x, y), so far along its direction."""

    x: float
    y: float
    along: Point
    long: float


class _Square(NamedTuple):
    """A square of floor by its middle and half its side, with the edges that may be nearest to a place in it.

    `mixed`: whether a part of it may not be free.
    """

    x: float
    y: float
    half: float
    edges: tuple[_Edge, ...]
    mixed: bool

    @property
    def reach(self) -> float:
        """From its middle to its corners."""
        return self.half * math.sqrt(2)


_NEAR_ENOUGH: Final = 0.1
_LEAST: Final = 50.0
_TOUCHES: Final = 1e-9


def _edges(shapes: Sequence[Outline]) -> Iterator[_Edge]:
    for shape in shapes:
        for (ax, ay), (bx, by) in pairwise((*shape, shape[0])):
            long = math.hypot(bx - ax, by - ay)
            if long > _TOUCHES:
                yield _Edge(ax, ay, ((bx - ax) / long, (by - ay) / long), long)


def _quarters(square: _Square) -> Iterator[_Square]:
    half = square.half / 2
    for right in (-half, half):
        for up in (-half, half):
            yield square._replace(x=square.x + right, y=square.y + up, half=half)


class _Floor(NamedTuple):
    """The walls, what stands within them, and the edges of all of it."""

    walls: Outline
    taken: tuple[Outline, ...]
    edges: tuple[_Edge, ...]

    def free(self, place: Point) -> bool:
        """Whether nothing stands at a place within the walls."""
        return inside(self.walls, place) and not any(inside(shape, place) for shape in self.taken)


class _Away(NamedTuple):
    """How far the middle of a square is from an edge, which way that is, and by how much a way off to the side bends it."""

    far: float
    right: float
    up: float
    bent: float
    edge: _Edge


class _Seen(NamedTuple):
    """How far the middle of a square is clear, below zero where it is not free; what may be nearest in it; the most clear in it."""

    clear: float
    near: tuple[_Away, ...]
    most: float


def _looked_at(square: _Square, floor: _Floor) -> _Seen:
    reach = square.reach
    found = sorted((_away(square, edge, reach) for edge in square.edges), key=lambda one: one.far)
    nearest = found[0].far
    near = tuple(each for each in found if each.far <= nearest + 2 * reach)
    if square.mixed and not floor.free((square.x, square.y)):
        return _Seen(-nearest, near, reach - nearest)
    most = min((_between(one, other, reach) for one, other in combinations(near[:_PAIRED], 2)), default=nearest + reach)
    return _Seen(nearest, near, most)


def _between_both(square: _Square, seen: _Seen, floor: _Floor, best: Circle) -> Circle:
    """The circle half way between what is nearest and what is most opposite to that, where it is larger than the best so far."""
    one = seen.near[0]
    other = min(seen.near, key=lambda each: one.right * each.right + one.up * each.up)
    step = (other.far - one.far) / 2
    if seen.clear < 0 or seen.clear + step <= best.radius:
        return best
    place = square._replace(x=square.x + step * one.right, y=square.y + step * one.up, half=0.0, edges=floor.edges, mixed=True)
    return max(best, Circle(place.x, place.y, _looked_at(place, floor).clear), key=lambda each: each.radius)


def _whole(floor: _Floor) -> _Square:
    xs, ys = [x for x, _ in floor.walls], [y for _, y in floor.walls]
    half = max(max(xs) - min(xs), max(ys) - min(ys)) / 2
    return _Square((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2, half, floor.edges, True)


_PAIRED: Final = 6


def _away(square: _Square, edge: _Edge, reach: float) -> _Away:
    dx, dy = square.x - edge.x, square.y - edge.y
    along = dx * edge.along[0] + dy * edge.along[1]
    to = min(max(along, 0.0), edge.long)
    dx, dy = dx - to * edge.along[0], dy - to * edge.along[1]
    far = math.hypot(dx, dy)
    if far < _TOUCHES:
        return _Away(0.0, 0.0, 0.0, 0.0, edge)
    return _Away(far, dx / far, dy / far, 0.0 if reach <= along <= edge.long - reach else 1 / far, edge)


def _between(one: _Away, other: _Away, reach: float) -> float:
    """The most that a place within reach can be clear of both of two places: of the two it is no further off, on average, than this.

    From a place d away in direction n, one at v from here is at most d + n·v + v²/2d away; before a straight edge just d + n·v.
    """
    across = math.hypot(one.right + other.right, one.up + other.up) * reach
    least = min(one.far, other.far) + reach
    return min(least, (one.far + other.far + across + reach * reach * (one.bent + other.bent) / 2) / 2)
