"""How cells are shown, rounded and added up."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.documents.block import CellKind, Column, Row, Table, Value
from tundish.writers.cell import boxes, cells_of, rounded, shown, total, total_cells


@pytest.mark.parametrize(
    ("value", "kind", "words"),
    [
        (1161, "length", "1,161"),
        (1160.5, "length", "1,161"),
        (-580, "length", "−580"),
        (-0.2, "length", "0"),
        ("1,090, 1,270", "length", "1,090, 1,270"),
        (12, "count", "12"),
        (38.5, "number", "38.5"),
        (1 / 3, "number", "0.333"),
        (20.0, "number", "20"),
        (4.155, "area", "4.16"),
        (9.064, "metres", "9.06"),
        (36.5, "hours", "36.5"),
        (0.3, "hours", "0.5"),
        (15, "percent", "15 %"),
        (17.5, "percent", "17.5 %"),
        (Decimal(1387), "money", "1,387.00"),
        (Decimal("0.005"), "money", "0.01"),
        (Decimal("-12.5"), "money", "−12.50"),
        (None, "money", "–"),
        (None, "text", "–"),
        (float("nan"), "area", "–"),
        (float("inf"), "text", "–"),
        (-3, "text", "−3"),
        ("words", "text", "words"),
        (4, "tick", ""),
        ("x", "blank", ""),
    ],
)
def test_a_cell_is_shown_as_the_trade_writes_it(value: Value, kind: CellKind, words: str) -> None:
    assert shown(value, kind) == words


@given(
    st.floats(allow_nan=False, allow_infinity=False), st.sampled_from(["length", "count", "number", "area", "metres", "hours", "percent"])
)
def test_any_number_can_be_rounded_and_shown(value: float, kind: CellKind) -> None:
    number = rounded(value, kind)
    assert number is not None
    assert abs(number - Decimal(repr(value))) <= Decimal("0.5")
    assert shown(value, kind) == shown(number, kind)


@pytest.mark.parametrize(("value", "count"), [(None, 1), ("", 1), (0, 1), (4, 4), (99, 8), (Decimal(2), 2)])
def test_boxes_to_tick_are_as_many_as_the_number_says(value: Value, count: int) -> None:
    assert boxes(value) == count


@given(st.lists(st.decimals(min_value=-10_000, max_value=10_000, places=3), max_size=30))
def test_a_total_is_the_sum_of_what_is_shown(amounts: list[Decimal]) -> None:
    table = Table((Column("What"), Column("£", "money")), tuple(Row(("x", amount)) for amount in amounts), (1,))
    read = sum((Decimal(shown(amount, "money").replace(",", "").replace("−", "-")) for amount in amounts), Decimal(0))
    assert total(table, 1) == read


def test_sums_of_groups_are_not_added_again() -> None:
    rows = (Row(("", Decimal(3)), group="A"), Row(("x", Decimal(1))), Row(("y", Decimal(2))), Row(("z", "on site")), Row(("short",)))
    table = Table((Column("What"), Column("£", "money")), rows, (1,), "In all")
    assert total(table, 1) == 3
    assert total_cells(table) == ("In all", "3.00")


def test_a_row_is_made_as_long_as_the_head() -> None:
    table = Table((Column("a"), Column("b")), ())
    assert cells_of(table, Row(("1",))) == ("1", "")
    assert cells_of(table, Row(("1", "2", "3"))) == ("1", "2")
