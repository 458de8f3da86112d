"""A plan in whole sheets from one in fractions: whole parts first, then what comes nearest to whole, then the rest by attempts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from tundish.cutting.attempts import Plan, attempts, worth_of
from tundish.cutting.boards import Layout, Nesting

_TIMES: Final = 2
_MORE: Final = 12
"""Attempts at what is left, in a run beyond the first."""
_MORE_SHARES: Final = (0.9, 0.5, 0.2, 0.6)
_SHARES: Final = (0.3, 0.7)
"""From which fraction on a sheet is taken whole, where nothing of it is cut over what was asked."""


def rounded(nest: Nesting, taken: Sequence[tuple[float, Layout]], run: int = 0) -> Plan:
    """The best of a few plans in whole sheets; `taken` is the most often taken first. Each `run` tries others."""
    best: Plan = ()
    for share in _SHARES if not run else (_MORE_SHARES[run % len(_MORE_SHARES)],):
        plan = _completed(nest, _whole(nest, taken, share), run)
        if not best or worth_of(nest, plan) < worth_of(nest, best):
            best = plan
        if nest.stop():
            break
    return best


def _whole(nest: Nesting, taken: Sequence[tuple[float, Layout]], share: float) -> list[Layout]:
    left = list(nest.demand)
    stock = [board.count for board in nest.boards]
    plan: list[Layout] = []
    fractions = [(amount - int(amount), layout) for amount, layout in taken]
    firsts = [(int(amount), layout) for amount, layout in taken]
    seconds = [(1, layout) for amount, layout in sorted(fractions, key=lambda one: -one[0]) if amount >= share]
    for times, layout in (*firsts, *seconds):
        for _ in range(times):
            have = stock[layout.kind]
            if have == 0 or any(count > more for count, more in zip(layout.counts, left, strict=True)):
                break
            stock[layout.kind] = None if have is None else have - 1
            left = [more - count for more, count in zip(left, layout.counts, strict=True)]
            plan.append(layout)
    return plan


def _completed(nest: Nesting, plan: Sequence[Layout], run: int) -> Plan:
    """The plan with all that it leaves cut from further sheets."""
    left = [size.count - sum(layout.counts[place] for layout in plan) for place, size in enumerate(nest.sizes)]
    used = [sum(layout.kind == kind for layout in plan) for kind in range(len(nest.boards))]
    rest = replace(
        nest,
        sizes=tuple(replace(size, count=count) for size, count in zip(nest.sizes, left, strict=True)),
        boards=tuple(
            replace(board, count=None if board.count is None else board.count - many) for board, many in zip(nest.boards, used, strict=True)
        ),
    )
    if not any(left):
        return tuple(plan)
    return (*plan, *min(attempts(rest, _MORE if run else _TIMES, run), key=lambda one: worth_of(rest, one)))
