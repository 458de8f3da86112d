"""Bars: which to take and how to cut them, for the least money, then the most useful remainders, then the fewest set-ups of the saw."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from tundish.cutting.amounts import attainable
from tundish.cutting.first import first_plans
from tundish.cutting.lots import at_once, bars_in_lots, many
from tundish.cutting.plan import Bar, BarCut, BarPlan, Effort, Piece, check_saw
from tundish.cutting.remnants import with_better_remnants
from tundish.cutting.until import Stop, never
from tundish.cutting.whole import MOST_ROOM, Pattern, Task, as_task, one_by_one

KEEP: Final = 300.0
"""Shortest bar remainder worth keeping, unless the trader says otherwise: common practice."""
_MANY: Final = 150
_FEW_AT_ONCE: Final = 25
_MANY_AT_ONCE: Final = 60
Bounded = tuple[tuple[Pattern, ...], int]


def plan_bars(
    pieces: Sequence[Piece],
    stock: Sequence[Bar],
    kerf: float = 0.0,
    keep: float = KEEP,
    effort: Effort = Effort.BEST,
    stop: Stop = never,
) -> BarPlan:
    """Cut the pieces from the stock, mm; remainders from `keep` up count as useful.

    Lengths are taken to a tenth of a millimetre, pieces up and bars down. The same question always has the same answer, and
    costs the same in whatever order pieces and stock are named; told to `stop`, it is the best plan
    so far. Raises BadCutError when the kerf is not a length.
    """
    check_saw(kerf)
    if many(pieces):
        return _in_lots(pieces, stock, kerf, keep)
    task, too_long = as_task(pieces, stock, kerf, keep)
    task = replace(task, stop=stop)
    plan, bound = _planned(task, effort)
    ran_out = any(not task.rods[pattern.kind].bars for pattern in plan)
    if ran_out:
        task, plan = _placed(task, plan)
        plan, bound = _bounded(task, plan, effort)
    plan = with_better_remnants(task, plan)
    cost = task.cost(plan)
    cuts, left_over = _cuts(task, plan, pieces, stock)
    return BarPlan(
        stock=tuple(stock),
        pieces=tuple(pieces),
        cuts=cuts,
        cost_pence=cost,
        bound_pence=min(bound, cost),
        proven=bound >= cost and not ran_out,
        unplaced=tuple(sorted((*too_long, *left_over))),
        kerf=kerf,
    )


def _in_lots(pieces: Sequence[Piece], stock: Sequence[Bar], kerf: float, keep: float) -> BarPlan:
    """A plan by rule of thumb, lot by lot, with the bound of the whole."""
    made = list(bars_in_lots(pieces, stock, lambda lot, left: plan_bars(lot, left, kerf, keep, Effort.QUICK, at_once)))
    cost = sum(each.cost_pence for each in made)
    unplaced = tuple(sorted(one for each in made for one in each.unplaced))
    gone = Counter(unplaced)
    placed = [replace(piece, count=piece.count - gone[place]) for place, piece in enumerate(pieces)]
    bound = attainable(as_task(placed, stock, kerf, keep)[0].load(), 0, cost)
    cuts = sorted((cut for each in made for cut in each.cuts), key=lambda cut: (not stock[cut.bar].offcut, cut.bar))
    ran_out = any(each.unplaced and not each.proven for each in made)
    return BarPlan(tuple(stock), tuple(pieces), tuple(cuts), cost, min(bound, cost), bound >= cost and not ran_out, unplaced, kerf)


def _planned(task: Task, effort: Effort) -> Bounded:
    """A plan for every piece that fits a bar, and the least that any such plan costs."""
    firsts: list[list[Pattern]] = [] if task.demand else [[]]
    for first in first_plans(task, thorough=effort is not Effort.QUICK) if task.demand else ():
        firsts.append(first)
        if task.stop():
            break
    plan = min(firsts, key=lambda one: (task.cost(one), len(one)))
    return _bounded(task, plan, effort, [pattern for one in firsts for pattern in one])


def _bounded(task: Task, plan: Sequence[Pattern], effort: Effort, pool: Sequence[Pattern] = ()) -> Bounded:
    bound = attainable(task.load(), 0, task.cost(plan))
    if effort is Effort.QUICK or bound >= task.cost(plan) or max(rod.room for rod in task.rods) > MOST_ROOM:
        return tuple(plan), bound
    if all(task.rods[pattern.kind].bars for pattern in plan):
        # Bars may be swapped for cheaper ones even then: whoever looks longer starts from no less than the quick answer.
        plan = with_better_remnants(task, plan)
        if bound >= task.cost(plan):
            return tuple(plan), bound
    # The optimiser is loaded only where rules of thumb do not settle it.
    from tundish.cutting.columns import cheapest
    from tundish.cutting.recut import recut

    large = sum(task.demand) > _MANY
    for bars_at_once in (_FEW_AT_ONCE, _MANY_AT_ONCE) if large else ():
        plan = recut(task, plan, bars_at_once)
    best = cheapest(task, plan, pool)
    if best.proven or large or task.stop():
        return best.plan, best.bound
    return recut(task, best.plan, _FEW_AT_ONCE), best.bound


def _placed(task: Task, plan: Sequence[Pattern]) -> tuple[Task, tuple[Pattern, ...]]:
    """The task and plan without the pieces for which there is no stock."""
    there = tuple(pattern for pattern in plan if task.rods[pattern.kind].bars)
    demand = tuple(sum(pattern.counts[place] for pattern in there) for place in range(len(task.widths)))
    return replace(task, demand=demand), there


def _cuts(task: Task, plan: Sequence[Pattern], pieces: Sequence[Piece], stock: Sequence[Bar]) -> tuple[tuple[BarCut, ...], tuple[int, ...]]:
    """The plan with each piece and bar by its place, the rack first, like bars together; and the pieces left over."""
    copies = [iter(one) for one in task.copies]
    bars = [one_by_one(rod.bars) for rod in task.rods]
    cuts = []
    for pattern in sorted(plan, key=lambda one: (not task.rods[one.kind].offcut, one.kind, one.counts)):
        bar = next(bars[pattern.kind])
        cut = tuple(next(copies[place]) for place, count in enumerate(pattern.counts) for _ in range(count))
        used = math.fsum(pieces[piece].taken(task.kerf) for piece in cut) + len(cut) * task.kerf
        cuts.append(BarCut(bar, cut, max(0.0, round(stock[bar].length - used, 6))))
    return tuple(cuts), tuple(piece for one in copies for piece in one)
