"""Sheet plans by many attempts, each a little different, and the best choice among all sheets they filled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tundish.cutting.boards import Layout, Nesting
from tundish.cutting.guillotine import Dice, Style, fill

Plan = tuple[Layout, ...]
_PLAIN: Final = 2
_SHAKES: Final = (0.1, 0.3, 0.8)
_ASTRAY: Final = (0.0, 0.2, 0.5)
_RATES: Final = (0.0, 0.2, 0.5)
_CLOSEST: Final = 0.3
MANY: Final = 400
"""Pieces from which a sheet that was filled is cut as often as it can be."""


def attempts(nest: Nesting, times: int, run: int = 0) -> Iterator[Plan]:
    """So many plans for all pieces; the first two of the first `run` go by rule, the others stray from it."""
    dice = Dice(run)
    for attempt in range(times):
        plain = attempt < _PLAIN and not run
        style = Style(
            _order(nest, dice, attempt % 3, 0.0 if plain else _one_of(_SHAKES, dice)),
            closest=not plain and dice.throw() < _CLOSEST,
            astray=0.0 if plain else _one_of(_ASTRAY, dice),
        )
        yield _attempt(nest, style, dice, 0.0 if plain else _one_of(_RATES, dice))


def tidied(nest: Nesting, plan: Sequence[Layout], times: int) -> Plan:
    """The same pieces on the same sheets or, at no more cost, on others, with better remainders where so many attempts find them."""
    dice = Dice()
    spare: list[float] = [float("inf") if board.count is None else board.count for board in nest.boards]
    for layout in plan:
        spare[layout.kind] -= 1
    done: list[Layout] = []
    for layout in plan:
        best = layout
        for kind in _no_dearer(nest, layout, spare):
            for attempt in range(times):
                style = Style(_order(nest, dice, attempt % 3, _one_of(_SHAKES, dice)), astray=_one_of(_ASTRAY, dice))
                tried = fill(nest, kind, layout.counts, style, dice)
                if tried.counts == layout.counts and (_cost(nest, tried), -tried.gain) < (_cost(nest, best), -best.gain):
                    best = tried
        spare[layout.kind] += 1
        spare[best.kind] -= 1
        done.append(best)
    return tuple(done)


def worth_of(nest: Nesting, plan: Sequence[Layout]) -> tuple[int, float, int]:
    """How good a plan is, less is better: money, then what is left in the rack, then how many sheets."""
    return nest.cost(plan), -sum(layout.gain for layout in plan), len(plan)


def _attempt(nest: Nesting, style: Style, dice: Dice, stray: float) -> Plan:
    left = list(nest.demand)
    many = sum(left) > MANY
    stock = [board.count for board in nest.boards]
    plan: list[Layout] = []
    rack = [kind for kind, board in enumerate(nest.boards) if board.cost == 0 and board.count is not None]
    if stray:
        rack.sort(key=lambda _: dice.throw())
    for kind in rack:
        for _ in range(stock[kind] or 0):
            layout = fill(nest, kind, left, style, dice)
            if layout.spots:
                _take(plan, left, layout)
        stock[kind] = 0
    while any(left):
        layout = _next_sheet(nest, left, stock, (style, stray), dice)
        for _ in range(_again(layout, left, stock) if many else 1):
            have = stock[layout.kind]
            stock[layout.kind] = None if have is None else have - 1
            _take(plan, left, layout)
    return tuple(plan)


def _again(layout: Layout, left: Sequence[int], stock: Sequence[int | None]) -> int:
    """How often a sheet can be cut from what is left to cut and to take; with thousands of pieces filling it anew takes too long."""
    times = min(have // count for have, count in zip(left, layout.counts, strict=True) if count)
    have = stock[layout.kind]
    return times if have is None else min(times, have)


def _take(plan: list[Layout], left: list[int], layout: Layout) -> None:
    left[:] = [have - count for have, count in zip(left, layout.counts, strict=True)]
    plan.append(layout)


def _next_sheet(nest: Nesting, left: Sequence[int], stock: Sequence[int | None], way: tuple[Style, float], dice: Dice) -> Layout:
    """The filling with the least cost by area, unless a sheet no dearer takes all that is left."""
    tried = [fill(nest, kind, left, way[0], dice) for kind, have in enumerate(stock) if have != 0]
    filled = [layout for layout in tried if layout.spots]
    rates = [_cost(nest, layout) / _area(nest, layout) * (1 + way[1] * dice.throw()) for layout in filled]
    chosen = filled[rates.index(min(rates))]
    ends = [layout for layout in filled if layout.counts == tuple(left) and _cost(nest, layout) <= _cost(nest, chosen)]
    return min(ends, key=lambda layout: _cost(nest, layout), default=chosen)


def _no_dearer(nest: Nesting, layout: Layout, spare: Sequence[float]) -> list[int]:
    need = sum(nest.sizes[size].area * count for size, count in enumerate(layout.counts) if count)
    return [
        kind
        for kind, board in enumerate(nest.boards)
        if kind == layout.kind or (spare[kind] > 0 and board.area >= need and board.cost <= _cost(nest, layout))
    ]


def _order(nest: Nesting, dice: Dice, by: int, shake: float) -> tuple[tuple[int, tuple[tuple[int, int], ...]], ...]:
    """Sizes from the largest by area, longest side or both, shaken by a share of it."""
    keys = []
    for size in nest.sizes:
        long, wide = max(size.ways[0]), min(size.ways[0])
        key = (size.area, long * long, size.area * (long + wide))[by]
        keys.append(-key * (1 + shake * (dice.throw() - 0.5)))
    return tuple((size, nest.sizes[size].ways) for size in sorted(range(len(keys)), key=keys.__getitem__))


def _one_of(choices: Sequence[float], dice: Dice) -> float:
    return choices[int(dice.throw() * len(choices))]


def _cost(nest: Nesting, layout: Layout) -> int:
    return nest.boards[layout.kind].cost


def _area(nest: Nesting, layout: Layout) -> int:
    return sum(nest.sizes[spot.size].area for spot in layout.spots)
