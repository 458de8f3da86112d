"""A hundred thousand pieces are answered: every piece once, from stock that there is, with a bound."""

from __future__ import annotations

from collections import Counter

import pytest

from tests.cutting.checker import faults_of_bars, faults_of_sheets
from tests.cutting.trade_like import dice_of
from tundish.cutting.bars import plan_bars
from tundish.cutting.lots import MOST_AT_ONCE, many
from tundish.cutting.plan import Bar, Piece, Sheet
from tundish.cutting.sheets import plan_sheets

BARS = (Bar(3000, 1140), Bar(2000, 800), Bar(900, 0, 5, offcut=True))
SHEETS = (Sheet(2400, 1200, 1620), Sheet(1200, 600, 520), Sheet(900, 500, 0, 4, offcut=True))


def test_a_list_is_large_from_so_many_pieces() -> None:
    assert not many([Piece("a", 100, count=MOST_AT_ONCE)])
    assert many([Piece("a", 100, count=MOST_AT_ONCE), Piece("b", 100)])


def test_a_hundred_thousand_bars_of_few_sizes() -> None:
    pieces = [Piece(str(place), 205 + 170 * place, count=10_000) for place in range(10)]
    plan = plan_bars(pieces, BARS, 2.0)
    assert Counter(one for cut in plan.cuts for one in cut.pieces) == Counter(dict.fromkeys(range(10), 10_000))
    assert plan.used()[2] <= 5
    assert 0 < plan.bound_pence <= plan.cost_pence < 1.25 * plan.bound_pence
    assert not faults_of_bars(plan)


def test_pieces_of_many_sizes_and_pieces_too_long() -> None:
    dice = dice_of(5)
    pieces = [Piece(str(place), dice.randrange(2_000, 18_000) / 10) for place in range(MOST_AT_ONCE + 500)] + [
        Piece("long", 4_000, count=3)
    ]
    plan = plan_bars(pieces, BARS, 2.0)
    assert plan.unplaced == (len(pieces) - 1,) * 3
    assert not faults_of_bars(plan)
    assert plan.cost_pence < 1.1 * plan.bound_pence


@pytest.mark.parametrize("sizes", [8, 400])
def test_sheets_in_lots(sizes: int) -> None:
    dice = dice_of(sizes)
    count = -(-(MOST_AT_ONCE + 1) // sizes)
    pieces = [Piece(str(place), dice.randrange(150, 1100), count=count, width=dice.randrange(80, 560)) for place in range(sizes)]
    plan = plan_sheets(pieces, SHEETS, 3.0, 5.0)
    placed = Counter(one.piece for cut in plan.cuts for one in cut.places)
    assert placed == Counter(dict.fromkeys(range(sizes), count))
    assert 0 < plan.bound_pence <= plan.cost_pence
    assert not plan.proven
    assert not faults_of_sheets(plan)
    assert plan.used()[2] <= 4
