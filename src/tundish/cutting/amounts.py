"""What stock can cost: only sums of its prices, and only sums whose bars or sheets are large enough together."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

NEGLIGIBLE: Final = 1e-7
"""Rounding of the optimiser, as a share of a cost."""
_MOST: Final = 100_000


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of stock: pence each, how many there are (None is no limit), and the most that one can give to pieces."""

    cost: int
    count: int | None
    fill: int


@dataclass(frozen=True, slots=True)
class Load:
    """What all pieces need together, and the kinds of stock it may come from."""

    need: int
    kinds: tuple[Kind, ...]


def step_of(kinds: Sequence[Kind]) -> int:
    """What every cost is a multiple of, pence."""
    return math.gcd(*(kind.cost for kind in kinds)) or 1


def attainable(load: Load, least: float, most: int) -> int:
    """The smallest sum from `least` up that stock can cost and whose stock holds enough together, or `most`."""
    step = step_of(load.kinds)
    low = max(0, math.ceil((least - NEGLIGIBLE * max(1.0, least)) / step))
    if low * step >= most:
        return most
    if most // step > _MOST:
        return min(most, max(low, math.ceil((1 - NEGLIGIBLE) * _by_share(load) / step)) * step)
    sums = _sums(load, step, most)
    place = bisect_left(sums, low * step)
    return sums[place] if place < len(sums) else most


def _by_share(load: Load) -> float:
    """The least that so much could cost if stock were sold in any part, at the best rate there is."""
    free = [kind for kind in load.kinds if kind.cost == 0]
    if any(kind.count is None for kind in free):
        return 0.0
    need = load.need - sum(kind.fill * (kind.count or 0) for kind in free)
    return max(0, need) * min((kind.cost / kind.fill for kind in load.kinds if kind.cost and kind.fill), default=0.0)


@lru_cache(maxsize=16)
def _sums(load: Load, step: int, most: int) -> tuple[int, ...]:
    """Every sum below `most` that will do, in order."""
    free = [kind for kind in load.kinds if kind.cost == 0]
    if any(kind.count is None for kind in free):
        return tuple(range(0, most, step))
    need = load.need - sum(kind.fill * (kind.count or 0) for kind in free)
    top = most // step
    cover: list[float] = [0.0] + [-math.inf] * top
    for each, fill in sorted((kind.cost // step, kind.fill) for kind in load.kinds if kind.cost):
        for amount in range(each, top + 1):
            cover[amount] = max(cover[amount], cover[amount - each] + fill)
    return tuple(amount * step for amount in range(top) if cover[amount] >= need)
