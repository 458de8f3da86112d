"""What Pricing says and shows of any price: where the money goes adds up, and no terms make it stumble."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import given, settings

from tests.jobs.test_money_on_paper import Bought, Work, all_terms, buying, costs, needs_of, times, worked
from tundish.catalogue.load import supplied_book
from tundish.desktop import price_words
from tundish.desktop.money_bar import LESS, TONES, MoneyBar
from tundish.desktop.price_reasons import price_view, stage_sections
from tundish.estimate import Job, estimate
from tundish.field import Entry
from tundish.figure import number
from tundish.pricing.cis import HIRED, NONE
from tundish.pricing.terms import Extra, Terms
from tundish.pricing.work_out import price
from tundish.procurement.purchase import Buying
from tundish.rules.rule import LABOUR, Need

NOTHING = Buying((), (), ())
WORK = (Need(number(10, "h"), "frames", "work", role=LABOUR),)


@settings(deadline=None, max_examples=60)
@given(all_terms, costs, times)
def test_where_the_money_goes_is_what_the_client_pays(terms: Terms, bought: Bought, work: Work) -> None:
    made = price(needs_of(work), buying(bought), terms)
    parts = price_words.where_it_goes(made)
    assert all(amount > 0 for _, amount in parts)
    assert {name.removesuffix(LESS) for name, _ in parts} <= set(TONES)
    together = sum((amount for _, amount in parts), Decimal(0))
    labour = sum((each.labour - each.paid for each in made.stages), Decimal(0))
    rounded = sum((each.contingency + each.rounding for each in made.stages), Decimal(0))
    discount = sum((each.amount for each in made.beside if each.kind == "discount"), Decimal(0))
    if labour >= 0 and rounded >= 0 and not discount:
        assert together == made.total
    assert together >= made.total


def test_a_discount_is_taken_off_the_mark_up_first_then_off_contingency_and_labour() -> None:
    terms = Terms(labour_rate=Decimal(40), contingency=Entry(10), discount=Entry(20))
    parts = dict(price_words.where_it_goes(price(WORK, NOTHING, terms)))
    assert parts == {"Labour less discount": Decimal("352.00"), "VAT": Decimal("70.40")}


def test_what_a_contractor_reckons_on_is_said_and_shown_with_what_is_left_out_of_it() -> None:
    terms = Terms(labour_rate=Decimal(40), extras=(Extra(what="Drill", amount=Decimal(60), cis=HIRED),), cis="CIS, registered, 20 %")
    made = worked(terms, price(WORK, NOTHING, terms))
    said = price_words.cis_words(made.price, terms)
    assert "reckons on £400.00: £460.00 before VAT, less £0.00 of materials with their delivery and £60.00 of plant hired in" in said
    lines = {each.label: each.amount for each in price_view(made).lines}
    assert lines["Plant and tools hired in, at cost"] == "−60.00"
    assert lines["The contractor reckons on"] == "400.00"
    assert lines["Kept back, CIS, registered, 20 %"] == "−80.00"


@settings(deadline=None, max_examples=25)
@given(all_terms, costs, times)
def test_everything_is_said_of_any_price(terms: Terms, bought: Bought, work: Work) -> None:
    made = worked(terms, price(needs_of(work), buying(bought), terms))
    for says in (price_words.who_words, price_words.validity_words, price_words.warnings):
        assert "None" not in says(made)
    assert "None" not in price_words.kept_words(made.price) + price_words.margin_words(terms) + price_words.vat_words(terms)
    assert ("reckons" in price_words.cis_words(made.price, terms)) == (terms.cis != NONE)
    assert price_view(made).lines
    for stage in made.price.stages:
        assert stage_sections(stage)[-1].lines[-1].amount


@pytest.mark.parametrize(
    ("terms", "total"),
    [
        (Terms(labour_rate=Decimal(0)), "0.00"),
        (Terms(labour_rate=Decimal(40), discount=Entry(100)), "0.00"),
        (Terms(labour_rate=Decimal(500), mark_up=Entry(500), contingency=Entry(100), overhead=Entry(200)), "36000.00"),
        (Terms(labour_rate=Decimal(40), vat="not registered"), "400.00"),
        (Terms(labour_rate=Decimal(40), vat="registered, reverse charge", cis="CIS, not registered, 30 %"), "400.00"),
        (Terms(labour_rate=Decimal(40), extras=(Extra(amount=Decimal(1_000_000)),)), "1200480.00"),
    ],
)
def test_prices_at_their_ends(terms: Terms, total: str) -> None:
    made = price(WORK, NOTHING, terms)
    assert made.total == Decimal(total)
    assert sum((each.amount for each in made.payments), Decimal(0)) == made.total
    assert price_words.kept_words(made).startswith("You keep")


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (20, "20 % margin of price is 25 % mark-up on cost."),
        (95, "95 % margin of price is 1,900 % mark-up on cost."),
        (100, "95 % margin of price is 1,900 % mark-up on cost."),
    ],
)
def test_a_margin_is_told_as_the_mark_up_that_is_worked_with(said: float, words: str) -> None:
    assert price_words.margin_words(Terms(mark_up_as="margin of price", mark_up=Entry(said))) == words
    made = price((), buying([("frames", "frames", Decimal(100), 1)]), Terms(mark_up_as="margin of price", mark_up=Entry(said)))
    (stage,) = made.stages
    assert stage.price == Decimal(100) / (1 - Decimal(min(said, 95)) / 100)


def test_of_many_warnings_the_first_are_told_by_the_name_of_their_input_and_the_rest_counted() -> None:
    lacking = tuple(Extra(what=f"Thing {place}") for place in range(4))
    made = estimate(Job(terms=Terms(extras=lacking)), supplied_book())
    said = price_words.warnings(made)
    assert "Amount before VAT: Thing 0 has no amount: it is not in the price." in said
    assert re.search(r"And \d+ more\.$", said)


def test_names_of_the_bar_are_whole_and_go_on_in_another_line(qtbot: object) -> None:
    bar = MoneyBar()
    bar.show_parts(tuple((f"Part number {place}", Decimal(1000 + place)) for place in range(8)))
    rows = [rect for rect, _ in bar.names(500)]
    assert len({rect.top() for rect in rows}) > 1
    assert all(rect.right() <= 500 for rect in rows)
    assert bar.heightForWidth(500) > bar.heightForWidth(5000)
