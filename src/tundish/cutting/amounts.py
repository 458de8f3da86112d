"""What bars can cost: only sums of their prices, and only sums whose bars are long enough together."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from tundish.cutting.whole import Pattern, Task

NEGLIGIBLE: Final = 1e-7
"""Rounding of the optimiser, as a share of a cost."""
_MOST: Final = 100_000


def cost_of(task: Task, plan: Sequence[Pattern]) -> int:
    """What the bars of a plan cost, pence."""
    return sum(task.rods[pattern.kind].cost for pattern in plan)


def step_of(task: Task) -> int:
    """What every cost is a multiple of, pence."""
    return math.gcd(*(rod.cost for rod in task.rods)) or 1


def attainable(task: Task, least: float, most: int) -> int:
    """The smallest sum from `least` up that bars can cost and whose bars are long enough together, or `most`."""
    step = step_of(task)
    low = max(0, math.ceil((least - NEGLIGIBLE * max(1.0, least)) / step))
    if low * step >= most:
        return most
    if most // step > _MOST:
        return low * step
    sums = _sums(task, step, most)
    place = bisect_left(sums, low * step)
    return sums[place] if place < len(sums) else most


@lru_cache(maxsize=16)
def _sums(task: Task, step: int, most: int) -> tuple[int, ...]:
    """Every sum below `most` that will do, in order."""
    free = [rod for rod in task.rods if rod.cost == 0]
    need = task.used(task.demand) - sum(rod.fill * (rod.count or 0) for rod in free)
    top = most // step
    if any(rod.count is None for rod in free):
        return tuple(range(0, most, step))
    cover: list[float] = [0.0] + [-math.inf] * top
    for each, fill in sorted((rod.cost // step, rod.fill) for rod in task.rods if rod.cost):
        for amount in range(each, top + 1):
            cover[amount] = max(cover[amount], cover[amount - each] + fill)
    return tuple(amount * step for amount in range(top) if cover[amount] >= need)
