"""A plan improved a few bars at a time: their pieces are planned anew as a small problem of their own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.cutting.columns import cheapest
from tundish.cutting.first import first_plans
from tundish.cutting.whole import Pattern, Task

_WINDOWS: Final = 30


@dataclass(frozen=True, slots=True)
class _Part:
    """Some bars of a plan as a task: `places` and `kinds` lead back to the widths and rods of the whole."""

    task: Task
    plan: tuple[Pattern, ...]
    places: tuple[int, ...]
    kinds: tuple[int, ...]


def recut(task: Task, plan: Sequence[Pattern], pieces: int) -> tuple[Pattern, ...]:
    """The plan with bars of up to `pieces` pieces together cut anew, the least filled first, while that makes it cheaper."""
    bars, start, looked = _by_waste(task, plan), 0, 0
    while start < len(bars) and looked < _WINDOWS and not task.stop():
        stop = _stop(bars, start, pieces)
        part = _part(task, bars, range(start, stop))
        pool = [pattern for first in first_plans(part.task, thorough=True) for pattern in first]
        better = cheapest(part.task, part.plan, pool)
        looked += 1
        if better.cost < part.task.cost(part.plan):
            bars = _by_waste(task, [*bars[:start], *bars[stop:], *(_back(task, part, pattern) for pattern in better.plan)])
            start = 0
        else:
            start += max(1, (stop - start) // 2)
    return tuple(bars)


def _by_waste(task: Task, plan: Sequence[Pattern]) -> list[Pattern]:
    return sorted(plan, key=lambda pattern: (task.used(pattern.counts) - task.rods[pattern.kind].room, pattern))


def _stop(bars: Sequence[Pattern], start: int, pieces: int) -> int:
    stop, together = start + 1, sum(bars[start].counts)
    while stop < len(bars) and together + sum(bars[stop].counts) <= pieces:
        together += sum(bars[stop].counts)
        stop += 1
    return stop


def _part(task: Task, bars: Sequence[Pattern], chosen: range) -> _Part:
    need = [sum(counts) for counts in zip(*(bars[bar].counts for bar in chosen), strict=True)]
    places = tuple(place for place, count in enumerate(need) if count)
    taken = [0] * len(task.rods)
    for bar, pattern in enumerate(bars):
        taken[pattern.kind] += bar not in chosen
    kinds = tuple(kind for kind, rod in enumerate(task.rods) if rod.count is None or rod.count > taken[kind])
    rods = [task.rods[kind] for kind in kinds]
    part = replace(
        task,
        widths=tuple(task.widths[place] for place in places),
        demand=tuple(need[place] for place in places),
        rods=tuple(
            replace(rod, count=None if rod.count is None else rod.count - taken[kind]) for kind, rod in zip(kinds, rods, strict=True)
        ),
        copies=(),
    )
    plan = (Pattern(kinds.index(bars[bar].kind), tuple(bars[bar].counts[place] for place in places)) for bar in chosen)
    return _Part(part, tuple(plan), places, kinds)


def _back(task: Task, part: _Part, pattern: Pattern) -> Pattern:
    counts = [0] * len(task.widths)
    for place, count in zip(part.places, pattern.counts, strict=True):
        counts[place] = count
    return Pattern(part.kinds[pattern.kind], tuple(counts))
