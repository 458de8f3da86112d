from __future__ import annotations

import pytest

from tundish.cutting.amounts import Kind, Load, attainable


@pytest.mark.parametrize(
    ("need", "kinds", "least", "cost"),
    [
        (10, (Kind(700, None, 10),), 0, 700),
        (11, (Kind(700, None, 10),), 0, 1400),
        (11, (Kind(700, None, 10),), 1500, 2100),
        (11, (Kind(700, None, 10), Kind(0, 1, 1)), 0, 700),
        (11, (Kind(700, None, 10), Kind(0, 1, 11)), 0, 0),
        (25, (Kind(700, None, 10), Kind(1000, None, 15)), 0, 1700),
        (25, (Kind(700, None, 10), Kind(1000, None, 15)), 1701, 2000),
        (25, (Kind(700, None, 10), Kind(0, None, 1)), 0, 0),
        (25, (Kind(700, None, 10), Kind(0, None, 1)), 1, 700),
    ],
)
def test_a_bound_is_rounded_up_to_what_stock_can_cost(need: int, kinds: tuple[Kind, ...], least: float, cost: int) -> None:
    assert attainable(Load(need, kinds), least, 10_000) == cost


def test_no_bound_is_over_the_cost_already_found() -> None:
    assert attainable(Load(25, (Kind(700, None, 10),)), 0, 1400) == 1400
    assert attainable(Load(5, (Kind(700, None, 10),)), 1e9, 1400) == 1400


def test_a_bound_within_rounding_of_a_sum_is_that_sum() -> None:
    assert attainable(Load(5, (Kind(700, None, 10),)), 700.00001, 10_000) == 700


def test_sums_too_many_to_list_are_rounded_to_the_common_step() -> None:
    kinds = (Kind(99_990, None, 10), Kind(100_020, None, 10))
    assert attainable(Load(400, kinds), 5_000_001, 10_000_000) == 5_000_010
    assert attainable(Load(1_000, kinds), 5_000_001, 10_000_000) == 9_999_000, "a hundred of the cheaper, which is what so much takes"
