"""How long a quote is good for, by the age of the prices it rests on."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.pricing.bought import bought
from tundish.catalogue.book import Book, RuleFigure
from tundish.field import Entry
from tundish.pricing.terms import Terms
from tundish.pricing.validity import validity, validity_problems

QUOTED = Terms(quoted="2026-11-20")


def book(hold: float = 60, short: float = 7, today: str = "") -> Book:
    named = {"prices.hold_days": hold, "prices.short_days": short}
    figures = {key: RuleFigure(key, value, "day", key, "own rule", "2026-11-01", value) for key, value in named.items()}
    return Book({}, {}, {}, {}, {}, figures, date=today)


def test_young_prices_leave_the_usual_days() -> None:
    found = validity(bought(("2026-11-01", "")), QUOTED, book())
    assert (found.days, found.until, found.allowed, found.old) == (30, "2026-12-20", 41, ())
    assert found.of == ("2026-11-01", "2026-11-01")


def test_days_that_nobody_typed_are_cut_to_what_the_oldest_price_allows() -> None:
    buying = bought(("2026-11-10", ""), ("2026-10-02", ""))
    found = validity(buying, QUOTED, book())
    assert (found.days, found.until, found.first and found.first.of) == (11, "2026-12-01", "2026-10-02")
    assert list(validity_problems(buying, QUOTED, book())) == []


def test_a_suppliers_own_last_day_comes_first() -> None:
    found = validity(bought(("2026-11-10", "2026-11-30")), QUOTED, book())
    assert (found.days, found.until) == (10, "2026-11-30")


def test_days_that_were_typed_stand_and_are_warned_of() -> None:
    buying, terms = bought(("2026-10-02", "")), replace(QUOTED, valid_days=Entry(45))
    assert validity(buying, terms, book()).days == 45
    (said,) = validity_problems(buying, terms, book())
    assert said.path == "terms.valid_days"
    assert said.text == "45 days are longer than prices hold: the price of Thing 1 is taken to hold until Tue 1 Dec 2026, for 11 days"


def test_a_price_that_is_old_is_named_and_the_quote_is_short() -> None:
    buying = bought(("2026-11-10", ""), ("2026-08-01", ""))
    found = validity(buying, QUOTED, book())
    assert (found.days, found.allowed, [each.name for each in found.old]) == (7, 50, ["Thing 2"])
    (said,) = validity_problems(buying, QUOTED, book())
    assert said.text == "prices too old to quote on: Thing 2 of Sat 1 Aug 2026; ask for them again"


def test_many_old_prices_are_named_in_part_and_counted() -> None:
    buying = bought(*[("2026-05-01", "")] * 5)
    (said,) = validity_problems(buying, QUOTED, book())
    assert "Thing 1 of Fri 1 May 2026, Thing 2 of Fri 1 May 2026, Thing 3 of Fri 1 May 2026 and 2 more" in said.text
    assert validity(buying, QUOTED, book()).allowed is None


def test_a_price_that_ends_today_leaves_a_day() -> None:
    found = validity(bought(("2026-09-21", "")), QUOTED, book())
    assert (found.allowed, found.days, found.old) == (0, 1, ())


@pytest.mark.parametrize("terms", [Terms(), QUOTED])
def test_where_nothing_is_bought_the_terms_decide(terms: Terms) -> None:
    found = validity(bought(), terms, book())
    assert (found.days, found.allowed, found.of) == (30, None, ())
    assert list(validity_problems(bought(), terms, book())) == []


def test_without_a_day_of_the_quote_it_is_as_of_today() -> None:
    buying = bought(("2026-10-02", ""))
    assert validity(buying, Terms(), book(today="2026-11-20")).days == 11
    assert validity(buying, Terms(), book()).until == ""


def test_a_price_without_a_day_is_left_aside() -> None:
    assert validity(bought(("", "")), QUOTED, book()).allowed is None


@given(st.lists(st.dates(), max_size=5), st.integers(1, 400))
def test_it_is_never_less_than_a_day_nor_longer_than_the_terms(days: list[object], hold: int) -> None:
    found = validity(bought(*[(str(day), "") for day in days]), QUOTED, book(hold=hold))
    assert 1 <= found.days <= 30
    assert found.allowed is None or found.allowed >= 0
