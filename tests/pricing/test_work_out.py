"""The arithmetic of money: pennies, shares, payments, percentages."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.field import Entry
from tundish.figure import number
from tundish.pricing.terms import Terms
from tundish.pricing.work_out import paid, penny, price, problems, shared
from tundish.procurement.purchase import Buying
from tundish.rules.rule import LABOUR, Need

NOTHING = Buying((), (), ())
money = st.decimals(0, 100_000, places=2)


def hours(amount: float) -> Need:
    return Need(number(amount, "h"), "frames", "hours", role=LABOUR)


@pytest.mark.parametrize(("exact", "rounded"), [("0.005", "0.01"), ("0.004", "0.00"), ("365.125", "365.13"), ("2.675", "2.68")])
def test_pennies_are_rounded_half_up(exact: str, rounded: str) -> None:
    assert penny(Decimal(exact)) == Decimal(rounded)


@given(money, st.lists(st.floats(0, 1e6), min_size=1, max_size=12))
def test_shares_add_up_to_the_penny(amount: Decimal, parts: list[float]) -> None:
    given_ = shared(amount, tuple(parts))
    assert sum(given_) == amount
    assert len(given_) == len(parts)


@given(st.floats(0, 400), money.filter(lambda each: each < 500), st.floats(0, 100), st.floats(0, 50))
def test_payments_add_up_to_the_total(amount: float, rate: Decimal, deposit: float, boarded: float) -> None:
    terms = Terms(labour_rate=rate, deposit=Entry(deposit), boarded=Entry(boarded))
    worked = price((hours(amount),), NOTHING, terms)
    assert sum((each.amount for each in worked.payments), Decimal(0)) == worked.total
    assert worked.total == worked.before_vat + worked.vat


@given(st.floats(0, 1), st.floats(0, 100), st.floats(0, 100))
def test_no_payment_is_below_nothing_or_over_the_whole(amount: float, deposit: float, boarded: float) -> None:
    terms = Terms(labour_rate=Decimal("0.11"), deposit=Entry(deposit), boarded=Entry(boarded))
    worked = price((hours(amount),), NOTHING, terms)
    assert all(each.amount > 0 and 0 <= each.percent <= 100 for each in worked.payments)
    assert sum((each.amount for each in worked.payments), Decimal(0)) == worked.total
    assert bool(problems(terms)) == (round(deposit + boarded - 100, 6) > 0)


def test_payments_of_more_than_the_whole_are_cut_short_and_said() -> None:
    terms = Terms(labour_rate=Decimal(40), deposit=Entry(80), boarded=Entry(50), vat="not registered")
    worked = price((hours(5),), NOTHING, terms)
    assert [(each.percent, each.amount) for each in worked.payments] == [(80, Decimal("160.00")), (20, Decimal("40.00"))]
    (said,) = problems(terms)
    assert (said.path, said.text) == (
        "terms.boarded",
        "with the 80 % at acceptance this is more than the whole: 20 % is asked for",
    )


def test_hours_are_rounded_up_to_halves_after_the_difficulty() -> None:
    terms = Terms(labour_rate=Decimal(40), difficulty=Entry(10))
    (stage,) = price((hours(3), hours(1.2)), NOTHING, terms).stages
    assert stage.hours.value == 5.0  # 4.2 × 1.1 = 4.62
    assert stage.labour == Decimal("200.00")


def test_contingency_is_on_the_labour_too() -> None:
    terms = Terms(labour_rate=Decimal(40), contingency=Entry(5))
    (stage,) = price((hours(5),), NOTHING, terms).stages
    assert (stage.contingency, stage.price) == (Decimal("10.00"), Decimal("210.00"))


def test_who_is_not_registered_charges_no_vat() -> None:
    terms = Terms(labour_rate=Decimal(40), vat="not registered")
    worked = price((hours(5),), NOTHING, terms)
    assert (worked.vat, worked.total) == (Decimal(0), Decimal("200.00"))


@pytest.mark.parametrize(("vat", "cost"), [("registered, 20 %", "10.01"), ("not registered", "12.01")])
def test_vat_that_cannot_be_reclaimed_is_part_of_the_cost(vat: str, cost: str) -> None:
    assert paid(Decimal("10.01"), Terms(vat=vat)) == Decimal(cost)


def test_a_job_of_nothing_costs_nothing() -> None:
    worked = price((), NOTHING, Terms(labour_rate=Decimal(40)))
    assert (worked.stages, worked.total, worked.payments, worked.kept_an_hour, worked.days) == ((), Decimal(0), (), None, 0)


def test_days_are_full_days_of_hours() -> None:
    worked = price((hours(16),), NOTHING, Terms(labour_rate=Decimal(40), hours_a_day=Entry(8)))
    assert worked.days == 2
