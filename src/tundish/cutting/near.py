"""A first plan that stays near one before: cut as that was, where its pieces still fit and that costs less."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace

from tundish.cutting.plan import Bar, BarPlan, Piece, SheetPlan
from tundish.cutting.sawn import Started, plan_round
from tundish.cutting.whole import down, up

Look = Callable[[tuple[Piece, ...], tuple[Bar, ...]], BarPlan]


def nearer(first: BarPlan | SheetPlan, before: BarPlan | SheetPlan | None, look: Look) -> BarPlan | SheetPlan:
    """The plan before where it is for the same pieces and no dearer; else one of bars cut as they were, if it is cheaper than the first.

    `look` plans the pieces that fit no more where they were.
    """
    if before is None or first.unplaced or before.cost_pence > first.cost_pence or before.kerf != first.kerf or before.stock != first.stock:
        return first
    if before.pieces == first.pieces:
        return before
    alike = [each.count for each in before.pieces] == [each.count for each in first.pieces]
    if not alike or before.cost_pence == first.cost_pence or not (isinstance(first, BarPlan) and isinstance(before, BarPlan)):
        return first
    kept = plan_round(first.pieces, first.stock, tuple(_still_fit(before, first)), look)
    if kept.unplaced or kept.cost_pence >= first.cost_pence:
        return first
    cuts = tuple(replace(cut, pieces=_longest_first(cut.pieces, kept)) for cut in kept.cuts)
    return replace(kept, cuts=cuts, bound_pence=first.bound_pence, proven=kept.cost_pence <= first.bound_pence)


def _still_fit(before: BarPlan, first: BarPlan) -> Iterator[Started]:
    """The bars of the plan before with the pieces of the first on them, those that are long enough."""
    saw = up(first.kerf)
    for cut in before.cuts:
        taken = [first.pieces[piece].taken(first.kerf) for piece in cut.pieces]
        bar = first.stock[cut.bar]
        if sum(up(each) + saw for each in taken) <= down(bar.length) + saw:
            rest = bar.length - math.fsum(taken) - len(taken) * first.kerf
            yield Started(bar.name, cut.bar, cut.pieces, max(0.0, round(rest, 6)), gone=False)


def _longest_first(pieces: tuple[int, ...], plan: BarPlan) -> tuple[int, ...]:
    return tuple(sorted(pieces, key=lambda piece: -plan.pieces[piece].length))
