from __future__ import annotations

import os

import pytest

from tundish.cutting import optimiser
from tundish.cutting.amounts import Kind
from tundish.cutting.optimiser import Choice
from tundish.cutting.whole import Pattern


def test_three_halves_of_a_bar_cost_a_bar_and_a_half_in_fractions_and_two_bars_in_whole_numbers() -> None:
    choice = Choice((3,), (Kind(100, None, 2),))
    choice.add(Pattern(0, (2,)))
    choice.add(Pattern(0, (1,)))
    prices = choice.prices()
    assert (prices.cost, *prices.pieces, *prices.losses) == pytest.approx((150, 50, 0, 50))
    amounts, least = choice.whole(150, 300, 10, between=True)
    assert sum(amounts) == 2
    assert 150 <= least <= 200


def test_one_more_of_a_scarce_kind_would_save_what_it_is_bought_for_now() -> None:
    choice = Choice((3,), (Kind(100, None, 1), Kind(0, 1, 1)))
    choice.add(Pattern(0, (1,)))
    choice.add(Pattern(1, (1,)))
    prices = choice.prices()
    assert (prices.cost, prices.pieces, prices.kinds) == (200, (100,), (0, -100))


@pytest.mark.parametrize("between", [True, False])
def test_a_cost_that_no_choice_comes_to_is_ruled_out(between: bool) -> None:
    choice = Choice((3,), (Kind(100, None, 2),))
    choice.add(Pattern(0, (2,)))
    amounts, least = choice.whole(110, 190, 10, between=between)
    assert not any(amounts) or amounts == (2,)
    assert least > 190 - 1


def test_a_program_without_standard_output_can_still_solve(monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(_descriptor: int) -> int:
        raise OSError

    optimiser._swallow_banner.cache_clear()
    monkeypatch.setattr(os, "dup", closed)
    choice = Choice((1,), (Kind(100, None, 1),))
    choice.add(Pattern(0, (1,)))
    assert choice.prices().cost == 100
