"""How near runs of pipe come to one another and to what stands in the void, measured between their outsides in three dimensions."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from operator import ne

from tundish.layout.room import PipeRun

Place = tuple[float, float, float]
Ends = tuple[Place, Place]


@dataclass(frozen=True, slots=True)
class Block:
    """Something upright that a pipe must pass: the leg of a frame, an upright, a cistern. From its least to its greatest x, y, z."""

    what: str
    whose: str
    least: Place
    most: Place


@dataclass(frozen=True, slots=True)
class Rod:
    """Something thin and straight that a pipe must pass, such as a tie rod."""

    what: str
    ends: Ends
    outside: float


def between_runs(one: PipeRun, other: PipeRun) -> float:
    """How much is clear between two runs at their nearest, mm; below zero they run into one another."""
    nearest, others = math.inf, _legs(other.route)
    for leg, (left, back, bottom), (right, front, top) in _legs(one.route):
        for against, (x1, y1, z1), (x2, y2, z2) in others:
            # Two pieces are no nearer than their boxes are along any one axis.
            if max(x1 - right, left - x2) < nearest and max(z1 - top, bottom - z2) < nearest and max(y1 - front, back - y2) < nearest:
                nearest = min(nearest, _apart(leg, against))
    return nearest - one.outside / 2 - other.outside / 2


def clears(one: PipeRun, other: PipeRun, least: float) -> bool:
    """Whether two runs are nowhere nearer to one another than that."""
    outsides = one.outside / 2, other.outside / 2
    within = least + outsides[0] + outsides[1] + _TOUCHES
    if _off(box_of(one.route), box_of(other.route)) > within:
        return True
    others = _legs(other.route)
    for leg, (left, back, bottom), (right, front, top) in _legs(one.route):
        for against, (x1, y1, z1), (x2, y2, z2) in others:
            apart = max(x1 - right, left - x2) > within or max(z1 - top, bottom - z2) > within or max(y1 - front, back - y2) > within
            if not apart and _apart(leg, against) - outsides[0] - outsides[1] < least:
                return False
    return True


def to_block(run: PipeRun, block: Block) -> float:
    """How much is clear between a run and something upright at their nearest, mm; below zero it runs into it."""
    nearest, within = math.inf, (block.least, block.most)
    for leg, *box in _legs(run.route):
        gaps = _between(box, within)
        if max(gaps) < nearest:
            # A leg along one axis is its own box.
            along_one = sum(map(ne, *leg)) <= 1
            nearest = min(nearest, math.hypot(*gaps) if along_one else _from_block(leg, block))
    return nearest - run.outside / 2


def to_rod(run: PipeRun, rod: Rod) -> float:
    """How much is clear between a run and something thin at their nearest, mm; below zero they run into one another."""
    return min(_apart(leg, rod.ends) for leg in pairwise(run.route)) - run.outside / 2 - rod.outside / 2


def no_nearer(run: PipeRun, thing: PipeRun | Block | Rod) -> float:
    """How much is clear at least between a run and what it must pass, by the boxes round them; quickly told."""
    if isinstance(thing, Block):
        return _off(box_of(run.route), (thing.least, thing.most)) - run.outside / 2
    round_it = box_of(thing.route if isinstance(thing, PipeRun) else thing.ends)
    return _off(box_of(run.route), round_it) - run.outside / 2 - thing.outside / 2


@lru_cache(maxsize=4096)
def box_of(route: tuple[Place, ...]) -> tuple[Place, Place]:
    """The least and the greatest place of the box round a way."""
    return _box(route)


def _box(places: Sequence[Place]) -> tuple[Place, Place]:
    xs, ys, zs = zip(*places, strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


def _off(one: Sequence[Place], other: Sequence[Place]) -> float:
    """How far two boxes are off one another along the axis along which they are furthest; nought where they share a place."""
    return max(_between(one, other))


def _between(one: Sequence[Place], other: Sequence[Place]) -> Place:
    """How far two boxes, each from its least to its greatest place, are off one another along each axis."""
    ((x1, y1, z1), (x2, y2, z2)), ((u1, v1, w1), (u2, v2, w2)) = one, other
    return max(u1 - x2, x1 - u2, 0.0), max(v1 - y2, y1 - v2, 0.0), max(w1 - z2, z1 - w2, 0.0)


def _from_block(leg: Ends, block: Block) -> float:
    """From the middle of a pipe to the block.

    The way along the leg is parted where it comes level with a face of the block; between two such places what is between is a parabola.
    """
    start, end = leg
    shares = {0.0, 1.0}
    for one, other, low, high in zip(start, end, block.least, block.most, strict=True):
        if abs(other - one) > _TOUCHES:
            shares |= {_share((low - one) / (other - one)), _share((high - one) / (other - one))}
    parted = sorted(shares)
    found = min(_square(_gaps(_at(leg, share), block)) for share in parted)
    for one, other in pairwise(parted):
        before, after = _gaps(_at(leg, one), block), _gaps(_at(leg, other), block)
        slopes = tuple(b - a for a, b in zip(before, after, strict=True))
        steep = _square(slopes)
        if steep > _TOUCHES:
            share = _share(-sum(a * slope for a, slope in zip(before, slopes, strict=True)) / steep)
            found = min(found, _square([a + share * slope for a, slope in zip(before, slopes, strict=True)]))
    return math.sqrt(found)


def _gaps(place: Place, block: Block) -> Place:
    """How far off a place is from the block along each axis, with the side it is on as sign."""
    (x, y, z), (left, back, bottom), (right, front, top) = place, block.least, block.most
    return _gap(x, left, right), _gap(y, back, front), _gap(z, bottom, top)


def _gap(at: float, low: float, high: float) -> float:
    return min(at - low, 0.0) or max(at - high, 0.0)


def _square(sizes: Sequence[float]) -> float:
    return sum(each * each for each in sizes)


@lru_cache(maxsize=4096)
def _legs(route: tuple[Place, ...]) -> tuple[tuple[Ends, Place, Place], ...]:
    """The straight pieces of a route, each with the least and the greatest place of the box round it."""
    return tuple((leg, *_box(leg)) for leg in pairwise(route))


def _apart(leg: Ends, against: Ends) -> float:
    """The least distance between two straight pieces, by their middles."""
    # Written out axis by axis, for it is asked thousands of times: by vectors it takes three times as long.
    ((ax, ay, az), (bx, by, bz)), ((cx, cy, cz), (dx, dy, dz)) = leg, against
    ux, uy, uz, vx, vy, vz, wx, wy, wz = bx - ax, by - ay, bz - az, dx - cx, dy - cy, dz - cz, ax - cx, ay - cy, az - cz
    uu, uv, vv = ux * ux + uy * uy + uz * uz, ux * vx + uy * vy + uz * vz, vx * vx + vy * vy + vz * vz
    uw, vw = ux * wx + uy * wy + uz * wz, vx * wx + vy * wy + vz * wz
    crossed = uu * vv - uv * uv
    s = _share((uv * vw - vv * uw) / crossed) if crossed > _TOUCHES else 0.0
    t = _share((uv * s + vw) / vv) if vv else 0.0
    s = _share((uv * t - uw) / uu) if uu else 0.0
    x, y, z = wx + s * ux - t * vx, wy + s * uy - t * vy, wz + s * uz - t * vz
    return float((x * x + y * y + z * z) ** 0.5)


def _at(leg: Ends, share: float) -> Place:
    (x1, y1, z1), (x2, y2, z2) = leg
    return x1 + (x2 - x1) * share, y1 + (y2 - y1) * share, z1 + (z2 - z1) * share


def _share(of: float) -> float:
    """Kept from nought to one."""
    return 0.0 if of < 0.0 else min(1.0, of)


_TOUCHES = 1e-6
