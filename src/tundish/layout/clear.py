"""How near runs of pipe come to one another and to what stands in the void, measured between their outsides in three dimensions."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

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


def between_runs(one: PipeRun, other: PipeRun) -> float:
    """How much is clear between two runs at their nearest, mm; below zero they run into one another."""
    nearest, others = math.inf, [_boxed(leg) for leg in pairwise(other.route)]
    for leg, (left, back, bottom), (right, front, top) in map(_boxed, pairwise(one.route)):
        for against, (x1, y1, z1), (x2, y2, z2) in others:
            # Two pieces are no nearer than their boxes are along any one axis.
            if max(x1 - right, left - x2) < nearest and max(z1 - top, bottom - z2) < nearest and max(y1 - front, back - y2) < nearest:
                nearest = min(nearest, _apart(leg, against))
    return nearest - one.outside / 2 - other.outside / 2


def to_block(run: PipeRun, block: Block) -> float:
    """How much is clear between a run and something upright at their nearest, mm; below zero it runs into it."""
    return max(-run.outside / 2, min(_from_block(leg, block) for leg in pairwise(run.route))) - run.outside / 2


def _from_block(leg: Ends, block: Block) -> float:
    """From the middle of a pipe to the block, its slope being so small that the part of it beside the block is taken as level."""
    (x1, y1, z1), (x2, y2, z2) = _beside(leg, block)
    (left, back, bottom), (right, front, top) = block.least, block.most
    x, y, z = _gap(x1, x2, left, right), _gap(y1, y2, back, front), _gap(z1, z2, bottom, top)
    return float((x * x + y * y + z * z) ** 0.5)


def _gap(one: float, other: float, low: float, high: float) -> float:
    """How far all from one place to the other is off all from low to high, along one axis; nought where they meet."""
    least, most = (one, other) if one < other else (other, one)
    return low - most if most < low else max(least - high, 0.0)


def _beside(leg: Ends, block: Block) -> Ends:
    """The part of a leg that is beside the block along the wall; its end that is nearer where no part is."""
    (x1, _, _), (x2, _, _) = leg
    if abs(x2 - x1) < _TOUCHES:
        return leg
    one, other = _share((block.least[0] - x1) / (x2 - x1)), _share((block.most[0] - x1) / (x2 - x1))
    return (_at(leg, one), _at(leg, other)) if one <= other else (_at(leg, other), _at(leg, one))


def _boxed(leg: Ends) -> tuple[Ends, Place, Place]:
    """A leg with the least and the greatest place of the box round it."""
    (x1, y1, z1), (x2, y2, z2) = leg
    return leg, (min(x1, x2), min(y1, y2), min(z1, z2)), (max(x1, x2), max(y1, y2), max(z1, z2))


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
