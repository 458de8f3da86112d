"""First plans for bars, by rules of thumb: each in well under a millisecond for a room's worth of pieces."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import Final

from tundish.cutting.whole import MOST_ROOM, Pattern, Rod, Task

Filling = Callable[[Task, Sequence[int], int], tuple[int, ...]]
_MANY: Final = 400


def first_plans(task: Task, *, thorough: bool) -> Iterator[list[Pattern]]:
    """Plans worth comparing; the rack goes first in each, new bars by what a filled unit costs.

    Unless `thorough`, only the quickest way is tried when there are hundreds of pieces.
    """
    fillings: tuple[Filling, ...] = (longest_first, fullest, long_and_full)
    if not thorough and sum(task.demand) > _MANY:
        fillings = (longest_first,)
    for filling in fillings:
        for shortest_rack_first in (True, False):
            yield _one_plan(task, filling, shortest_rack_first=shortest_rack_first)
    if sum(task.demand) <= _MANY:
        yield from (_one_plan(task, long_and_full, of=kind) for kind in _of_one_kind(task))


def longest_first(task: Task, left: Sequence[int], room: int) -> tuple[int, ...]:
    """Fill a bar with the longest piece that still fits, and again."""
    counts = [0] * len(left)
    for place, width in enumerate(task.widths):
        if left[place] and width <= room:
            counts[place] = min(left[place], room // width)
            room -= counts[place] * width
    return tuple(counts)


def fullest(task: Task, left: Sequence[int], room: int) -> tuple[int, ...]:
    """Fill a bar as full as can be, by long pieces where several ways are equally full."""
    if room > MOST_ROOM:
        return longest_first(task, left, room)
    reach, mask = 1, (1 << (room + 1)) - 1
    steps: list[tuple[int, int, int]] = []
    for place in range(len(left) - 1, -1, -1):
        width = task.widths[place]
        more, step = min(left[place], room // width), 1
        while more > 0:
            taken = min(step, more)
            more -= taken
            step *= 2
            steps.append((place, taken, reach))
            reach |= (reach << taken * width) & mask
    return _walk_back(task, steps, reach.bit_length() - 1)


def long_and_full(task: Task, left: Sequence[int], room: int) -> tuple[int, ...]:
    """The longest piece that fits, and the rest as full as can be."""
    for place, width in enumerate(task.widths):
        if left[place] and width <= room:
            rest = [count - (other == place) for other, count in enumerate(left)]
            counts = fullest(task, rest, room - width)
            return tuple(count + (other == place) for other, count in enumerate(counts))
    return (0,) * len(left)


def _walk_back(task: Task, steps: list[tuple[int, int, int]], total: int) -> tuple[int, ...]:
    counts = [0] * len(task.widths)
    for place, taken, before in reversed(steps):
        rest = total - taken * task.widths[place]
        if rest >= 0 and before >> rest & 1:
            counts[place] += taken
            total = rest
    return tuple(counts)


def _of_one_kind(task: Task) -> list[int]:
    """The bars that are sold, each long enough for every piece, where there is more than one: a few of one kind may beat the best rate."""
    longest = max(width for width, count in zip(task.widths, task.demand, strict=True) if count)
    sold = [kind for kind, rod in enumerate(task.rods) if rod.cost and rod.count is None]
    return [kind for kind in sold if task.rods[kind].room >= longest] if len(sold) > 1 else []


def _one_plan(task: Task, filling: Filling, *, shortest_rack_first: bool = True, of: int | None = None) -> list[Pattern]:
    """The rack first, then new bars: of one kind, or the next always of the kind that costs least by what it takes."""
    left = list(task.demand)
    stock = [rod.count for rod in task.rods]
    plan: list[Pattern] = []
    rack = [kind for kind, rod in enumerate(task.rods) if rod.cost == 0 and rod.count is not None]
    for kind in rack if shortest_rack_first else reversed(rack):
        for _ in range(stock[kind] or 0):
            counts = filling(task, left, task.rods[kind].room)
            if any(counts):
                _take(plan, left, stock, Pattern(kind, counts))
    while any(left):
        _take(plan, left, stock, _next_bar(task, left, stock, filling) if of is None else _one_of(task, left, of, filling))
    return [_cheaper_rod(task, stock, pattern) for pattern in plan]


def _take(plan: list[Pattern], left: list[int], stock: list[int | None], pattern: Pattern) -> None:
    for place, count in enumerate(pattern.counts):
        left[place] -= count
    have = stock[pattern.kind]
    stock[pattern.kind] = None if have is None else have - 1
    plan.append(pattern)


def _next_bar(task: Task, left: Sequence[int], stock: Sequence[int | None], filling: Filling) -> Pattern:
    """The filling with the least cost by unit cut, unless a bar no dearer takes all that is left."""
    total = task.used(left)
    tried = []
    for kind, rod in enumerate(task.rods):
        if stock[kind] != 0:
            counts = tuple(left) if total <= rod.room else filling(task, left, rod.room)
            tried.append(Pattern(kind, counts))
    rates = [(task.rods[one.kind].cost / used, one.kind) if (used := task.used(one.counts)) else (math.inf, one.kind) for one in tried]
    chosen = tried[rates.index(min(rates))]
    dearest = task.rods[chosen.kind].cost
    ends = [one for one in tried if total <= task.rods[one.kind].room and task.rods[one.kind].cost <= dearest]
    return min(ends, key=lambda one: task.rods[one.kind].cost, default=chosen)


def _one_of(task: Task, left: Sequence[int], kind: int, filling: Filling) -> Pattern:
    room = task.rods[kind].room
    return Pattern(kind, tuple(left) if task.used(left) <= room else filling(task, left, room))


def _cheaper_rod(task: Task, stock: list[int | None], pattern: Pattern) -> Pattern:
    used = task.used(pattern.counts)

    def key(kind: int) -> tuple[int, int]:
        rod: Rod = task.rods[kind]
        return rod.cost, rod.room

    able = [kind for kind, rod in enumerate(task.rods) if kind == pattern.kind or (stock[kind] != 0 and used <= rod.room)]
    best = min(able, key=key)
    if key(best) < key(pattern.kind):
        for kind, step in ((best, -1), (pattern.kind, 1)):
            have = stock[kind]
            stock[kind] = None if have is None else have + step
        return Pattern(best, pattern.counts)
    return pattern
