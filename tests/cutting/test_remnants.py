from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.cutting.trade_like import bar_job
from tundish.cutting import remnants
from tundish.cutting.bars import plan_bars
from tundish.cutting.first import first_plans
from tundish.cutting.plan import Bar, Piece
from tundish.cutting.remnants import with_better_remnants
from tundish.cutting.whole import Pattern, as_task


@pytest.mark.parametrize("passes", [1, 8])
@pytest.mark.parametrize("seed", range(8))
def test_the_same_pieces_for_no_more_money_leave_no_less_of_worth(seed: int, passes: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remnants, "_PASSES", passes)
    pieces, stock, kerf = bar_job(seed, 30)
    task, _ = as_task(pieces, stock, kerf, 300.0)
    for plan in first_plans(task, thorough=True):
        better = with_better_remnants(task, plan)
        assert [sum(counts) for counts in zip(*(one.counts for one in better), strict=True)] == list(task.demand)
        assert task.cost(better) <= task.cost(plan)
        if task.cost(better) == task.cost(plan):
            assert sum(map(task.gain, better)) >= sum(map(task.gain, plan)) - 1e-6


def test_one_long_remainder_is_worth_more_than_two_short_and_a_stub_nothing() -> None:
    task, _ = as_task(*bar_job(0, 1), 300.0)
    assert task.worth(299.9) == 0
    assert task.worth(2000) > 2 * task.worth(1000) > 0


@pytest.mark.parametrize("seed", range(8))
def test_for_the_same_money_and_remainders_the_stop_is_set_no_more_often(seed: int) -> None:
    task, _ = as_task(*bar_job(seed, 30), 300.0)
    for plan in first_plans(task, thorough=True):
        better = with_better_remnants(task, plan)
        if task.cost(better) == task.cost(plan) and abs(sum(map(task.gain, better)) - sum(map(task.gain, plan))) < 1e-6:
            assert settings(better) <= settings(plan)


def test_two_lengths_that_two_bars_share_are_cut_one_from_each() -> None:
    """Two bars of 2,000, each with two pieces of 500 and two of 450, leave scrap: sorted, the stop is set twice, not four times."""
    task, _ = as_task((Piece("A", 500, 4), Piece("B", 450, 4)), (Bar(2000, 100),), 0, 300.0)
    mixed = (Pattern(0, (3, 1)), Pattern(0, (1, 3)))
    better = with_better_remnants(task, mixed)
    assert sorted(pattern.counts for pattern in better) == [(0, 4), (4, 0)]
    plan = plan_bars((Piece("A", 500, 4), Piece("B", 450, 4)), (Bar(2000, 100),))
    assert plan.set_ups == 2


def settings(plan: Sequence[Pattern]) -> int:
    """How often the stop is set, bars cut alike together."""
    return sum(sum(1 for count in counts if count) for counts in {pattern.counts for pattern in plan})
