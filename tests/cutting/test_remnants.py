from __future__ import annotations

import pytest

from tests.cutting.trade_like import bar_job
from tundish.cutting import remnants
from tundish.cutting.first import first_plans
from tundish.cutting.remnants import with_better_remnants
from tundish.cutting.whole import as_task


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
