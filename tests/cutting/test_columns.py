"""The ways to the cheapest plan, each forced: short lists take the first, long ones the others."""

from __future__ import annotations

import pytest

from tests.cutting.checker import faults_of_bars
from tests.cutting.trade_like import bar_job, dice_of
from tundish.cutting import bars, columns
from tundish.cutting.bars import plan_bars
from tundish.cutting.plan import Bar, Piece
from tundish.cutting.whole import Pattern, as_task


@pytest.fixture(autouse=True)
def _only_generated(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(columns, "_MOST_PATTERNS", 0)


@pytest.mark.parametrize("seed", range(4))
def test_patterns_made_to_price_bound_as_all_patterns_do(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = bar_job(seed, 30)
    made = plan_bars(*asked)
    monkeypatch.undo()
    listed = plan_bars(*asked)
    assert not faults_of_bars(made)
    assert listed.proven
    assert made.bound_pence <= listed.cost_pence <= made.cost_pence <= listed.cost_pence * 1.03


@pytest.mark.parametrize("rounds", [0, 1, 3])
def test_a_bound_holds_when_the_making_is_cut_short(rounds: int, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = bar_job(2, 40)
    full = plan_bars(*asked)
    monkeypatch.setattr(columns, "_ROUNDS", rounds)
    short = plan_bars(*asked)
    assert not faults_of_bars(short)
    assert short.bound_pence <= full.bound_pence


def test_of_a_great_many_pieces_only_the_bound_is_settled_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    # Cut anew in parts first; the whole is then too much for a choice in whole numbers.
    monkeypatch.setattr(columns, "_MOST_PIECES", 30)
    monkeypatch.setattr(bars, "_MANY", 30)
    dice = dice_of(4)
    pieces = [Piece(f"S{mark}", dice.randrange(400, 1700, 7)) for mark in range(60)]
    plan = plan_bars(pieces, [Bar(2500, 610), Bar(4000, 1000), Bar(1450, 0, 2, offcut=True)], 3.0)
    assert not faults_of_bars(plan)
    assert plan.cost_pence <= plan.bound_pence * 1.04


def test_what_is_cut_over_the_asked_is_cut_from_nothing() -> None:
    task, _ = as_task([Piece("A", 900, 3)], [Bar(2000, 500)], 0.0, 300.0)
    assert columns._trimmed(task, [Pattern(0, (2,))] * 3) == [Pattern(0, (2,)), Pattern(0, (1,))]
