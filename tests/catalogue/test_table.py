"""Cells are read strictly: what is not plainly a number, a price or a day is told and not guessed."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.table import Row, day, money, number, whole, words
from tundish.field import Problem


def row(cell: str) -> Row:
    return Row("bolts.csv:7", {"size": cell})


@given(st.decimals(Decimal("0.001"), Decimal(999_999), places=3))
def test_a_number_is_read_as_written(value: Decimal) -> None:
    problems: list[Problem] = []
    assert number(row(f"{value:f}"), "size", problems) == float(value)
    assert problems == []


@given(st.text())
def test_any_other_text_is_told_once_and_never_raises(text: str) -> None:
    for read in (number, money, day, whole):
        problems: list[Problem] = []
        read(row(text), "size", problems)
        assert len(problems) <= 1
        assert all(each.path == "bolts.csv:7" for each in problems)


@pytest.mark.parametrize("text", ["", "1,5", "1e3", "nan", "inf", "1_000", "½", "12mm", "0x1", "--1", "1."])
def test_what_only_looks_like_a_number_is_none(text: str) -> None:
    problems: list[Problem] = []
    number(row(text), "size", problems)
    assert len(problems) == 1


def test_nought_and_less_pass_only_where_they_may() -> None:
    for text in ("0", "-5"):
        problems: list[Problem] = []
        assert number(row(text), "size", problems, signed=True) == float(text)
        assert problems == []
        number(row(text), "size", problems)
        assert problems == [Problem("bolts.csv:7", f"size: {text} should be more than nought")]


@given(st.decimals(Decimal("0.01"), Decimal("99999.99"), places=2))
def test_money_is_read_to_the_penny(value: Decimal) -> None:
    problems: list[Problem] = []
    assert money(row(f"{value:f}"), "size", problems) == value
    assert problems == []


def test_nothing_is_a_sum_only_where_it_may_be() -> None:
    problems: list[Problem] = []
    assert money(row("0.00"), "size", problems, free=True) == 0
    assert problems == []


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)))
def test_a_day_is_read_as_written(when: date) -> None:
    problems: list[Problem] = []
    assert day(row(when.isoformat()), "size", problems) == when.isoformat()
    assert problems == []


def test_a_column_that_is_not_there_is_blank() -> None:
    problems: list[Problem] = []
    assert words(row("12"), "colour", problems) == ""
    assert problems == [Problem("bolts.csv:7", "colour is blank")]
