"""When a bill is due, and what a business owes that pays late."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.field import Entry
from tundish.pricing.invoice import Charge, Invoice, bill_of, credit
from tundish.pricing.late import base_rate, day_of_interest, due_of, late_of, paid_by, pay_days
from tundish.pricing.terms import Terms
from tundish.pricing.work_out import problems

BUSINESS = Terms(client_is="a business")
BILL = Invoice(number="1-1", issued="2026-03-02", supplied="2026-02-27", charges=(Charge(what="work", net=Decimal(1000)),))


def test_days_to_pay_are_those_of_the_client_unless_they_were_agreed() -> None:
    assert (pay_days(BUSINESS), pay_days(Terms()), pay_days(Terms(pay_days=Entry(7)))) == (30, 14, 7)


def test_a_bill_is_due_from_itself_or_from_the_work_the_later() -> None:
    assert due_of(BILL, BUSINESS) == "2026-04-01"
    assert due_of(replace(BILL, supplied="2026-03-05"), BUSINESS) == "2026-04-04"
    assert due_of(replace(BILL, issued="", supplied=""), BUSINESS) == ""


@pytest.mark.parametrize(
    ("day", "percent"),
    [("2023-06-30", "3.50"), ("2023-07-01", "5.00"), ("2024-06-30", "5.25"), ("2026-11-26", "3.75"), ("2019-01-01", "0.10"), ("", "3.75")],
)
def test_the_base_rate_is_that_of_the_half_year(day: str, percent: str) -> None:
    assert base_rate(day, BUSINESS) == Decimal(percent)
    assert base_rate(day, replace(BUSINESS, base_rate=Entry(0.5))) == Decimal("0.5")


def test_a_business_owes_interest_by_the_day_and_a_fixed_sum() -> None:
    late = late_of(BILL, BUSINESS, "2026-04-11")
    assert late is not None
    assert (late.due, late.days, late.percent) == ("2026-04-01", 10, Decimal("11.75"))
    assert (late.a_day, late.interest, late.fixed, late.more) == (Decimal("0.32"), Decimal("3.20"), Decimal(70), Decimal("73.20"))


def test_the_rate_stays_that_of_the_day_it_became_late() -> None:
    bill = replace(BILL, issued="2025-05-31", supplied="")
    late = late_of(bill, BUSINESS, "2026-02-01")
    assert late is not None
    assert late.due == "2025-06-30"
    assert late.percent == Decimal("12.25"), "late from 1 July 2025, whatever the rate is since"


def test_a_private_person_is_told_and_owes_no_more() -> None:
    late = late_of(BILL, Terms(), "2026-04-11")
    assert late is not None
    assert (late.days, late.more) == (26, Decimal(0))


@pytest.mark.parametrize(
    ("bill", "day"),
    [
        (BILL, "2026-04-01"),
        (BILL, ""),
        (replace(BILL, paid="2026-04-01"), "2026-05-01"),
        (replace(BILL, paid="2026-04-20", settled="2026-04-25"), "2026-05-01"),
        (credit(BILL, "1-2", "2026-03-03"), "2026-05-01"),
        (replace(BILL, charges=()), "2026-05-01"),
        (replace(BILL, issued="", supplied=""), "2026-05-01"),
    ],
)
def test_what_is_paid_in_time_settled_taken_back_of_nothing_or_not_due_is_not_late(bill: Invoice, day: str) -> None:
    assert late_of(bill, BUSINESS, day) is None


@pytest.mark.parametrize("day", ["2026-04-11", "2026-04-12", "2027-01-01"])
def test_a_bill_paid_late_owes_for_the_days_until_it_was_paid(day: str) -> None:
    paid = replace(BILL, paid="2026-04-11")
    assert late_of(paid, BUSINESS, day) == late_of(BILL, BUSINESS, "2026-04-11")
    assert late_of(paid, Terms(), day) is None, "a private person owes nothing more"


def test_as_of_a_day_before_it_was_paid_it_is_not_paid_yet() -> None:
    paid = replace(BILL, paid="2026-04-11", settled="2026-04-12")
    assert paid_by(paid, "2026-04-11")
    assert paid_by(paid, "")
    assert not paid_by(paid, "2026-04-10")
    assert not paid_by(BILL, "2026-04-10")
    assert late_of(paid, BUSINESS, "2026-04-05") == late_of(BILL, BUSINESS, "2026-04-05")


def test_what_a_contractor_keeps_back_bears_no_interest() -> None:
    late = late_of(replace(BILL, kept_back=Decimal(200)), BUSINESS, "2026-04-11")
    assert late is not None
    assert late.fixed == Decimal(40), "800 is the debt"


def test_more_than_sixty_days_between_businesses_is_questioned() -> None:
    (said,) = problems(replace(BUSINESS, pay_days=Entry(61)))
    assert said.path == "terms.pay_days"
    assert problems(replace(BUSINESS, pay_days=Entry(60))) == problems(Terms(pay_days=Entry(90))) == ()


@given(st.decimals("0.01", 100_000, places=2), st.integers(1, 2000), st.decimals(0, 15, places=2))
def test_interest_grows_by_the_same_each_day(net: Decimal, days: int, base: Decimal) -> None:
    terms = replace(BUSINESS, base_rate=Entry(float(base)), pay_days=Entry(0))
    bill = replace(BILL, issued="2026-01-01", supplied="", charges=(Charge(net=net),))
    day = (date(2026, 1, 1) + timedelta(days=days)).isoformat()
    late = late_of(bill, terms, day)
    assert late is not None
    assert late.interest == days * day_of_interest(bill_of(bill).due, late.percent)
    assert late.days == days
