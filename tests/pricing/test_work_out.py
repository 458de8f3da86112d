"""The arithmetic of money: pennies, shares, payments, percentages."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.item import Item, Offer
from tundish.catalogue.trader import Trader
from tundish.field import Entry
from tundish.figure import number
from tundish.pricing.build_up import paid
from tundish.pricing.margin import margin_of, mark_up_of
from tundish.pricing.pennies import penny, shared
from tundish.pricing.terms import NOT_REGISTERED, STEPS, Extra, Terms
from tundish.pricing.waits import Wait
from tundish.pricing.work_out import charged_unregistered, price, problems
from tundish.procurement.purchase import Buying, Pick, Purchase
from tundish.rules.rule import LABOUR, Need
from tundish.takeoff.line import Line

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


amounts = st.decimals(0, 5_000, places=2)


@given(amounts, st.lists(amounts, max_size=3), st.floats(0, 40), st.sampled_from(("the penny", "£1", "£5", "£10")), st.integers(0, 40))
def test_every_row_of_a_price_adds_up(rate: Decimal, by_hand: list[Decimal], percent: float, step: str, time: int) -> None:
    terms = Terms(
        labour_rate=min(rate, Decimal(500)),
        overhead=Entry(percent),
        discount=Entry(percent),
        travel=Decimal(12),
        round_to=step,
        extras=tuple(Extra(what="skip", amount=each, vat="empty home") for each in by_hand),
    )
    made = price((hours(time),), NOTHING, terms)
    for stage in made.stages:
        parts = stage.materials + stage.mark_up + stage.labour + stage.overhead + stage.contingency + stage.rounding
        assert parts == stage.price
        assert stage.price % STEPS[step] == 0
    rows = sum((each.price for each in made.stages), sum((each.amount for each in made.beside), Decimal(0)))
    assert rows == made.before_vat == sum((each.net for each in made.vat_lines), Decimal(0))
    assert made.total == made.before_vat + sum((each.vat for each in made.vat_lines), Decimal(0))
    assert made.kept == made.before_vat - made.break_even


def test_a_discount_leaves_provisional_sums_alone() -> None:
    extras = (Extra(what="floor", kind="provisional sum", amount=Decimal(100)), Extra(what="skip", amount=Decimal(50)))
    made = price((hours(5),), NOTHING, Terms(labour_rate=Decimal(40), discount=Entry(10), extras=extras))
    assert [(each.kind, each.amount) for each in made.beside] == [
        ("provisional sum", Decimal(100)),
        ("cost", Decimal(50)),
        ("discount", Decimal("-25.00")),
    ]


def test_a_discount_lessens_the_vat_of_what_it_is_given_on() -> None:
    extras = (Extra(what="rails", amount=Decimal(100), vat="mobility aids over 60"),)
    made = price((hours(5),), NOTHING, Terms(labour_rate=Decimal(40), discount=Entry(10), extras=extras))
    assert [(each.name, each.amount) for each in made.beside if each.kind == "discount"] == [
        ("Discount, 10 %, on standard rate", Decimal("-20.00")),
        ("Discount, 10 %, on mobility aids for a person over 60", Decimal("-10.00")),
    ]
    assert [(each.percent, each.net, each.vat) for each in made.vat_lines] == [
        (Decimal(20), Decimal(180), Decimal(36)),
        (Decimal(5), Decimal(90), Decimal("4.50")),
    ]


@pytest.mark.parametrize("vat", ["registered, 20 %", "not registered"])
def test_a_discount_is_one_row_where_there_is_one_rate_or_none(vat: str) -> None:
    extras = (Extra(what="skip", amount=Decimal(100), vat="standard rate" if vat != "not registered" else "empty home"),)
    made = price((hours(5),), NOTHING, Terms(labour_rate=Decimal(40), discount=Entry(10), extras=extras, vat=vat))
    assert [(each.name, each.amount) for each in made.beside if each.kind == "discount"] == [("Discount, 10 %", Decimal("-30.00"))]


def test_a_whole_discount_leaves_nothing_at_any_rate() -> None:
    extras = (Extra(what="rails", amount=Decimal("33.33"), vat="mobility aids over 60"),)
    made = price((hours(5),), NOTHING, Terms(labour_rate=Decimal("41.17"), discount=Entry(100), extras=extras))
    assert {each.net for each in made.vat_lines} == {Decimal(0)}
    assert (made.total, made.payments) == (Decimal(0), ())


def test_what_has_no_amount_is_said_and_not_nothing() -> None:
    (said,) = problems(Terms(extras=(Extra(what="skip permit"),)))
    assert (said.path, said.text) == ("terms.extras.0.amount", "skip permit has no amount: it is not in the price")


def test_a_lower_rate_asks_for_its_evidence() -> None:
    (said,) = problems(Terms(vat_reason="empty home"))
    assert said.path == "terms.vat_evidence"
    assert "two years" in said.text
    assert problems(Terms(vat_reason="empty home", vat_evidence="letter of the council")) == ()


def test_the_least_price_keeps_what_is_wanted_a_day() -> None:
    made = price((hours(15),), NOTHING, Terms(labour_rate=Decimal(40), keep_a_day=Decimal(200)))
    assert made.least == made.break_even + 200 * made.days


def test_a_day_on_which_something_only_dries_is_not_kept_for() -> None:
    work = (hours(7.5), Need(number(7.5, "h"), "second fix", "work", role=LABOUR))
    dries = Wait("It dries", number(36, "h"), "frames", ("second fix",))
    made = price(work, NOTHING, Terms(labour_rate=Decimal(40), keep_a_day=Decimal(200)), (dries,))
    assert (made.days, made.on_site) == (3, 2)
    assert made.least == made.break_even + 200 * 2


def test_used_cost_charges_what_the_job_uses_of_a_pack() -> None:
    one, nothing = number(4, "each"), number(0, "each")
    line = Line(Item("peg", "Peg", "sundry", "Sundries", "each", {}), one, (Need(one, "first fix", "work", item="peg"),))
    pick = Pick(Offer("peg", "one", "1", 10, Decimal("5.00"), "2026-11-01"), 1)
    buying = Buying((Purchase(line, nothing, nothing, nothing, (pick,)),), (), ())
    assert [price((), buying, Terms(charged_at=each)).materials_cost for each in ("bought cost", "used cost")] == [Decimal(5), Decimal(2)]


def test_vat_is_not_charged_without_a_number_unasked() -> None:
    named = Trader(name="A. Fitter")
    (said,) = charged_unregistered(Terms(), named)
    assert said.path == "terms.vat"
    assert "not registered" in said.text
    assert charged_unregistered(Terms(vat=NOT_REGISTERED), named) == ()
    assert charged_unregistered(Terms(), replace(named, vat_number="GB 000 0000 00")) == ()
    assert charged_unregistered(Terms(), Trader()) == (), "before there is a name there are no papers to send"


def test_a_margin_of_nearly_all_of_the_price_is_said_to_be_cut() -> None:
    (said,) = problems(Terms(mark_up_as="margin of price", mark_up=Entry(96)))
    assert (said.path, "95 % is used" in said.text) == ("terms.mark_up", True)
    assert problems(Terms(mark_up_as="margin of price", mark_up=Entry(95))) == ()


@given(st.decimals("0.01", "0.94", places=2))
def test_a_margin_and_its_mark_up_are_one_another(part: Decimal) -> None:
    assert abs(margin_of(mark_up_of(part)) - part) < Decimal("1e-20")
