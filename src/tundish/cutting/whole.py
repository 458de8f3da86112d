"""The bars and pieces of a cut list in whole units: equal lengths merged, kerf folded in, in an order of its own.

A piece takes its length and one kerf, a bar gives its length and one kerf: then pieces fit a bar exactly when
`sum(lengths) + (n - 1) x kerf <= bar length`. Units are tenths of mm, divided by their common divisor; pieces and kerf are rounded
up and bars down, so that a plan in units is never overfull in mm. Nothing here depends on the order of pieces and stock.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain, repeat
from operator import mul
from typing import Final, NamedTuple

from tundish.cutting.amounts import Kind, Load, step_of
from tundish.cutting.plan import Bar, Piece
from tundish.cutting.until import Stop, never

TENTHS: Final = 10
_SLACK: Final = 1e-6
_METRE: Final = 1000.0


class Pattern(NamedTuple):
    """One bar or sheet: which kind of stock, and how many pieces of each width come from it."""

    kind: int
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Rod:
    """One kind of bar: `room` in units, `fill` the fullest that it can be cut, `bars` its places in the stock."""

    room: int
    fill: int
    cost: int
    count: int | None
    offcut: bool
    length: float
    bars: tuple[tuple[int, int | None], ...]
    """Empty for stock that is not there: what it would hold is left over."""


@dataclass(frozen=True, slots=True)
class Task:
    """The problem in units: `widths` from the longest, how many of each, the rods, and the pieces behind each width."""

    widths: tuple[int, ...]
    demand: tuple[int, ...]
    rods: tuple[Rod, ...]
    unit: float
    kerf: float
    keep: float
    copies: tuple[tuple[int, ...], ...]
    stop: Stop = field(default=never, compare=False)

    def load(self) -> Load:
        """What all pieces take, and the rods it may come from."""
        return Load(self.used(self.demand), tuple(Kind(rod.cost, rod.count, rod.fill) for rod in self.rods))

    def cost(self, plan: Iterable[Pattern]) -> int:
        """What the bars of a plan cost, pence."""
        return sum(self.rods[pattern.kind].cost for pattern in plan)

    def used(self, counts: Sequence[int]) -> int:
        """Units that these pieces take."""
        return sum(map(mul, self.widths, counts))

    def remainder(self, pattern: Pattern) -> float:
        """What a cut bar leaves, mm, near enough to judge by."""
        return max(0.0, self.rods[pattern.kind].length + self.kerf - self.used(pattern.counts) * self.unit)

    def worth(self, length: float) -> float:
        """What a remainder is worth: nothing below `keep`, then the square of its metres, so that one long beats two short."""
        return (length / _METRE) ** 2 if length >= self.keep else 0.0

    def gain(self, pattern: Pattern) -> float:
        """Worth of the remainder less worth of the rack piece taken."""
        rod = self.rods[pattern.kind]
        return self.worth(self.remainder(pattern)) - (self.worth(rod.length) if rod.offcut else 0.0)


def as_task(pieces: Sequence[Piece], stock: Sequence[Bar], kerf: float, keep: float) -> tuple[Task, tuple[int, ...]]:
    """The problem in units, and the pieces too long for any bar."""
    saw = up(kerf)
    rooms = [down(bar.length) + saw if bar.count != 0 else 0 for bar in stock]
    longest = max(rooms, default=0)
    copies: defaultdict[int, list[int]] = defaultdict(list)
    unplaced: list[int] = []
    for index, piece in enumerate(pieces):
        width = up(piece.taken(kerf)) + saw
        (copies[width] if width <= longest else unplaced).extend([index] * piece.count)
    widths = sorted((width for width in copies if copies[width]), reverse=True)
    divisor = math.gcd(*widths) or 1
    task = Task(
        widths=tuple(width // divisor for width in widths),
        demand=tuple(len(copies[width]) for width in widths),
        rods=(),
        unit=divisor / TENTHS,
        kerf=kerf,
        keep=keep,
        copies=tuple(tuple(copies[width]) for width in widths),
    )
    return _with_rods(task, stock, [room // divisor for room in rooms]), tuple(unplaced)


def reachable(widths: Sequence[int], counts: Sequence[int], room: int) -> int:
    """The totals up to `room` that some of these pieces make, as bits."""
    reach, mask = 1, (1 << (room + 1)) - 1
    for width, count in zip(widths, counts, strict=True):
        left, step = min(count, room // width), 1
        while left > 0:
            taken = min(step, left)
            left -= taken
            step *= 2
            reach |= (reach << taken * width) & mask
    return reach


def one_by_one(stock: Sequence[tuple[int, int | None]]) -> Iterator[int]:
    """The places in the stock of one kind, each as often as there are bars or sheets of it."""
    return chain.from_iterable(repeat(index) if count is None else repeat(index, count) for index, count in stock)


def up(length: float) -> int:
    """Tenths of mm that a piece needs at least."""
    return math.ceil(length * TENTHS - _SLACK)


def down(length: float) -> int:
    """Tenths of mm that a bar surely gives."""
    return math.floor(length * TENTHS + _SLACK)


def _with_rods(task: Task, stock: Sequence[Bar], rooms: Sequence[int]) -> Task:
    alike: defaultdict[tuple[int, int, bool], list[int]] = defaultdict(list)
    for index, bar in enumerate(stock):
        if task.widths and rooms[index] >= task.widths[-1]:
            alike[rooms[index], bar.cost_pence, bar.offcut].append(index)
    rods = []
    for (room, cost, offcut), indices in sorted(alike.items()):
        bars = tuple((index, stock[index].count) for index in indices)
        counts = [count for _, count in bars if count is not None]
        count = sum(counts) if len(counts) == len(bars) else None
        rods.append(Rod(room, _fill(task, room), cost, count, offcut, min(stock[index].length for index in indices), bars))
    return replace(task, rods=(*rods, *_missing(task, rods)))


def _missing(task: Task, rods: Sequence[Rod]) -> tuple[Rod, ...]:
    """Where stock could run out, a bar that is not there, at a price that no other choice of bars comes to."""
    if not rods or any(rod.count is None and rod.room >= task.widths[0] for rod in rods):
        return ()
    room = max(rod.room for rod in rods)
    step = step_of([Kind(rod.cost, rod.count, rod.fill) for rod in rods])
    dear = (max(rod.cost for rod in rods) // step * sum(task.demand) + 1) * step
    return (Rod(room, _fill(task, room), dear, None, offcut=False, length=0.0, bars=()),)


def _fill(task: Task, room: int) -> int:
    total = task.used(task.demand)
    if total <= room:
        return total
    return reachable(task.widths, task.demand, room).bit_length() - 1 if room <= MOST_ROOM else room


MOST_ROOM: Final = 500_000
"""Longest bar, in units, whose every filling is looked at; longer ones are cut by rule of thumb."""
