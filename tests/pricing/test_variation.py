"""What was agreed and how it was varied: the sum of all papers is what the client pays, whatever order things come in."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from tests.pricing.test_invoice import DAY, priced
from tundish.field import Entry
from tundish.pricing.contract import SINCE, contract_of
from tundish.pricing.invoice import Invoice, bill_of, bills_to_come, credit, is_credited, next_invoice, next_number, overbilled
from tundish.pricing.terms import NOT_REGISTERED, REVERSE_CHARGE, Terms
from tundish.pricing.variation import (
    ROUNDING,
    Agreed,
    Basis,
    PricedRow,
    Share,
    Variation,
    more_of,
    next_variation,
    rows_agreed,
    rows_of,
    sums_of,
    unanswered,
    varied_rows,
)
from tundish.pricing.vat_rounding import ROUNDINGS

RATE = Decimal(20)
NONE = Decimal(0)
THIRDS = (Share(when="first", percent=Decimal(30)), Share(when="second", percent=Decimal(35)), Share(when="last", percent=Decimal(35)))


def row(what: str, net: str, percent: Decimal | None = RATE) -> PricedRow:
    return PricedRow(what=what, net=Decimal(net), percent=percent)


def agreed(*rows: PricedRow, terms: Terms | None = None) -> Agreed:
    return Agreed(on="2026-12-01", rows=rows, shares=THIRDS, basis=Basis(terms=terms or Terms()))


def accepted(job: Agreed, so_far: tuple[Variation, ...], before: tuple[PricedRow, ...], after: tuple[PricedRow, ...]) -> Variation:
    rows = varied_rows(rows_agreed(job, so_far), before, after, job.basis.terms.vat_rounding)
    return Variation(number=next_variation("7", so_far), made=DAY, rows=rows, accepted=DAY)


def bill(job: Agreed, variations: tuple[Variation, ...], issued: tuple[Invoice, ...]) -> tuple[Invoice, ...]:
    """The next bill where there is one; where too much is billed, the last standing one is taken back first."""
    contract = contract_of(priced(Terms()), Terms(), job, variations)
    while overbilled(contract, issued):
        last = next(each for each in reversed(issued) if not each.credits and not is_credited(each, issued))
        issued = (*issued, credit(last, next_number("7", issued), DAY))
    made = next_invoice(contract, issued, next_number("7", issued), DAY)
    return issued if made is None else (*issued, made)


money = st.decimals(0, 3_000, places=2)
prices = st.lists(st.tuples(st.sampled_from(("frames", "tiles", "skip", "rails")), money), max_size=4, unique_by=lambda each: each[0])
steps = st.lists(st.one_of(st.just("bill"), st.tuples(prices, st.decimals(-3, 3, places=2))), max_size=8)


@given(prices.filter(bool), steps, st.sampled_from(("registered, 20 %", NOT_REGISTERED, REVERSE_CHARGE)), st.sampled_from(tuple(ROUNDINGS)))
def test_quote_and_variations_are_what_is_billed_to_the_penny(
    first: list[tuple[str, Decimal]], does: list[str | tuple[list[tuple[str, Decimal]], Decimal]], vat: str, rounding: str
) -> None:
    """Rates differ by row, goods grow dearer or cheaper between, bills are made before, between and after."""
    terms = Terms(vat=vat, vat_rounding=rounding)

    def rows(given: list[tuple[str, Decimal]], drift: Decimal = NONE) -> tuple[PricedRow, ...]:
        rate = {"skip": NONE, "rails": Decimal(5)}
        nets = ((what, max(net + drift, NONE)) for what, net in given)
        return tuple(PricedRow(what=what, net=net, percent=None if vat == NOT_REGISTERED else rate.get(what, RATE)) for what, net in nets)

    job, now = agreed(*rows(first), terms=terms), first
    variations: tuple[Variation, ...] = ()
    issued: tuple[Invoice, ...] = ()
    paid = sums_of(job.rows, terms).total
    for step in (*does, *["bill"] * 6):
        if isinstance(step, str):
            issued = bill(job, variations, issued)
        else:
            after, drift = step
            made = accepted(job, variations, rows(now, drift), rows(after, drift))
            more = more_of(made, job, variations)
            assert sum((each.vat for each in more.vat_lines if each.charged), NONE) == more.total - more.net
            paid += more.total
            variations, now = (*variations, made), after
    whole = sums_of(rows_agreed(job, variations), terms)
    assert whole.total == paid, "the quote and its variations add up to the new price"
    assert contract_of(priced(Terms()), Terms(), job, variations).total == paid
    assert sum((bill_of(each).total for each in issued), NONE) == paid
    assert sum((bill_of(each).net for each in issued), NONE) == whole.net
    by_line = ROUNDINGS[rounding].by_line
    assert all((charge.net or NONE) > 0 or by_line for each in issued for charge in each.charges), "what is too much is taken back"
    assert all(bill_of(each).net >= 0 or each.credits for each in issued), "never billed below nought"
    assert [each.number for each in issued] == [f"7-{place + 1}" for place in range(len(issued))]
    assert all((each.net or NONE) >= 0 for each in rows_agreed(job, variations) if each.what != ROUNDING)


def test_goods_that_grew_dearer_are_not_charged_to_the_client() -> None:
    standing = (row("frames", "100.00"), row("tiles", "50.00"))
    before, after = (row("frames", "140.00"), row("tiles", "60.00")), (row("frames", "140.00"), row("tiles", "75.00"))
    (made,) = varied_rows(standing, before, after)
    assert (made.what, made.was, made.now) == ("tiles", Decimal(50), Decimal(65))


def test_what_is_gone_is_taken_away_whole_and_what_is_new_comes_in_whole() -> None:
    standing = (row("frames", "100.00"), row("skip", "50.00"))
    made = varied_rows(standing, (row("frames", "100.00"), row("skip", "58.00")), (row("frames", "100.00"), row("rails", "30.00")))
    assert [(each.what, each.was, each.now) for each in made] == [("skip", Decimal(50), NONE), ("rails", NONE, Decimal(30))]


def test_pennies_that_vat_cannot_be_worked_on_are_rounded_in_a_row_of_their_own() -> None:
    standing = (row("frames", "100.00"),)
    made = varied_rows(standing, standing, (row("frames", "110.03"),))
    assert [(each.what, each.now) for each in made] == [("frames", Decimal("110.03")), (ROUNDING, Decimal("0.02"))]
    assert [each.what for each in varied_rows(standing, standing, (row("frames", "110.05"),))] == ["frames"]


def test_nothing_changed_is_no_row() -> None:
    standing = (row("frames", "100.01"), row("frames", "20.00"), row("discount", "-3.33"))
    assert varied_rows(standing, standing, standing) == ()


def test_a_variation_counts_once_it_is_accepted_and_its_number_is_never_used_again() -> None:
    job = agreed(row("frames", "100.00"))
    offered = replace(accepted(job, (), (row("frames", "100.00"),), (row("frames", "130.00"),)), accepted="")
    assert unanswered((offered,)) is offered
    assert rows_agreed(job, (offered,)) == job.rows
    withdrawn = replace(offered, withdrawn=DAY)
    assert unanswered((withdrawn,)) is None
    assert rows_agreed(job, (withdrawn,)) == job.rows
    assert next_variation("7", (withdrawn,)) == "7-V2"
    assert next_variation("", ()) == "V1"
    assert [each.net for each in rows_agreed(job, (replace(offered, accepted=DAY),))] == [Decimal(130)]


def test_what_is_agreed_after_the_last_bill_has_a_bill_of_its_own() -> None:
    job = agreed(row("frames", "1000.00"))
    issued: tuple[Invoice, ...] = ()
    for _ in range(4):
        issued = bill(job, (), issued)
    assert len(issued) == 3
    more = accepted(job, (), (row("frames", "1000.00"),), (row("frames", "1100.00"),))
    issued = bill(job, (more,), issued)
    assert issued[-1].what == SINCE
    assert bill_of(issued[-1]).total == Decimal(120)
    assert bill(job, (more,), issued) == issued


def test_less_than_was_billed_takes_the_last_bill_back_and_makes_it_again() -> None:
    job = agreed(row("frames", "1000.00"))
    issued = bill(job, (), bill(job, (), ()))
    less = accepted(job, (), (row("frames", "1000.00"),), (row("frames", "500.00"),))
    contract = contract_of(priced(Terms()), Terms(), job, (less,))
    assert overbilled(contract, issued)
    assert next_invoice(contract, issued, "7-3", DAY) is None
    issued = bill(job, (less,), issued)
    assert [bool(each.credits) for each in issued] == [False, False, True, False]


def test_the_bills_to_come_are_the_bills_that_then_are_made() -> None:
    job = agreed(row("frames", "1000.00"), row("skip", "99.99", NONE))
    contract = contract_of(priced(Terms()), Terms(), job, ())
    first = bill(job, (), ())
    told = bills_to_come(contract, first)
    assert [each.number for each in told] == ["", ""]
    issued = first
    for _ in range(5):
        issued = bill(job, (), issued)
    assert [bill_of(each) for each in told] == [bill_of(each) for each in issued[1:]]
    assert bills_to_come(contract, issued) == ()


def test_an_agreed_price_is_billed_whatever_the_job_would_cost_now() -> None:
    terms = Terms(labour_rate=Decimal(40), deposit=Entry(30))
    made = priced(terms)
    shares = tuple(Share(when=each.when, percent=Decimal(str(each.percent))) for each in made.payments)
    kept = Agreed(on=DAY, rows=rows_of(made, terms), shares=shares, basis=Basis(terms=terms))
    dearer = replace(terms, labour_rate=Decimal(55))
    assert contract_of(priced(dearer), dearer, kept).total == made.total
    assert contract_of(priced(dearer), dearer, Agreed()).total == priced(dearer).total
