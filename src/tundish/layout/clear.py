"""How near runs of pipe come to one another and to what stands in the void, measured between their outsides in three dimensions."""

from __future__ import annotations

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
    apart = min(_apart(leg, against) for leg in pairwise(one.route) for against in pairwise(other.route))
    return apart - one.outside / 2 - other.outside / 2


def to_block(run: PipeRun, block: Block) -> float:
    """How much is clear between a run and something upright at their nearest, mm; below zero it runs into it."""
    return max(-run.outside / 2, min(_from_block(leg, block) for leg in pairwise(run.route))) - run.outside / 2


def _from_block(leg: Ends, block: Block) -> float:
    """From the middle of a pipe to the block, its slope being so small that the part of it beside the block is taken as level."""
    one, other = _beside(leg, block)
    gaps = [max(low - max(a, b), min(a, b) - high, 0.0) for a, b, low, high in zip(one, other, block.least, block.most, strict=True)]
    return float(sum(gap * gap for gap in gaps) ** 0.5)


def _beside(leg: Ends, block: Block) -> Ends:
    """The part of a leg that is beside the block along the wall; its end that is nearer where no part is."""
    (x1, _, _), (x2, _, _) = leg
    if abs(x2 - x1) < _TOUCHES:
        return leg
    shares = sorted(min(max((x - x1) / (x2 - x1), 0.0), 1.0) for x in (block.least[0], block.most[0]))
    one, other = (_at(leg, share) for share in shares)
    return one, other


def _apart(leg: Ends, against: Ends) -> float:
    """The least distance between two straight pieces, by their middles."""
    (a, b), (c, d) = leg, against
    u, v, w = _minus(b, a), _minus(d, c), _minus(a, c)
    uu, uv, vv, uw, vw = _dot(u, u), _dot(u, v), _dot(v, v), _dot(u, w), _dot(v, w)
    crossed = uu * vv - uv * uv
    s = min(max((uv * vw - vv * uw) / crossed, 0.0), 1.0) if crossed > _TOUCHES else 0.0
    t = min(max((uv * s + vw) / vv, 0.0), 1.0) if vv else 0.0
    s = min(max((uv * t - uw) / uu, 0.0), 1.0) if uu else 0.0
    near = _minus(_at(leg, s), _at(against, t))
    return float(_dot(near, near) ** 0.5)


def _at(leg: Ends, share: float) -> Place:
    (x1, y1, z1), (x2, y2, z2) = leg
    return x1 + (x2 - x1) * share, y1 + (y2 - y1) * share, z1 + (z2 - z1) * share


def _minus(one: Place, other: Place) -> Place:
    return one[0] - other[0], one[1] - other[1], one[2] - other[2]


def _dot(one: Place, other: Place) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


_TOUCHES = 1e-6
