"""Bills of a contract: together they are the price, to the penny, whatever was taken back on the way."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from tundish.field import Entry
from tundish.figure import number
from tundish.pricing import cis
from tundish.pricing.contract import Contract, contract_of
from tundish.pricing.invoice import Invoice, bill_of, credit, is_credited, next_invoice, next_number
from tundish.pricing.price import Price
from tundish.pricing.terms import NOT_REGISTERED, REVERSE_CHARGE, Extra, Terms
from tundish.pricing.variation import Agreed
from tundish.pricing.vat_rounding import ROUNDINGS
from tundish.pricing.work_out import price
from tundish.procurement.purchase import Buying
from tundish.rules.rule import LABOUR, Need

NOTHING = Buying((), (), ())
DAY = "2026-12-07"


def priced(terms: Terms, time: float = 30) -> Price:
    return price((Need(number(time, "h"), "frames", "hours", role=LABOUR),), NOTHING, terms)


def contract(terms: Terms) -> Contract:
    return contract_of(priced(terms), terms, Agreed())


def all_bills(of: Contract, issued: tuple[Invoice, ...] = ()) -> tuple[Invoice, ...]:
    while (bill := next_invoice(of, issued, next_number("7", issued), DAY)) is not None:
        issued = (*issued, bill)
    return issued


HAND = st.tuples(
    st.decimals(0, 900, places=2), st.sampled_from(("as the job", "empty home", "energy-saving materials")), st.sampled_from(cis.PARTS)
)
TERMS = st.builds(
    Terms,
    labour_rate=st.decimals("0.01", 400, places=2),
    deposit=st.floats(0, 60).map(Entry),
    boarded=st.floats(0, 60).map(Entry),
    discount=st.sampled_from((None, Entry(7))),
    vat=st.sampled_from(("registered, 20 %", NOT_REGISTERED, REVERSE_CHARGE)),
    vat_rounding=st.sampled_from(tuple(ROUNDINGS)),
    cis=st.sampled_from(tuple(cis.RATES)),
    extras=st.lists(HAND.map(lambda each: Extra(what="extra", amount=each[0], vat=each[1], cis=each[2])), max_size=3).map(tuple),
)


@given(TERMS, st.booleans())
def test_all_bills_together_are_the_price(terms: Terms, back: bool) -> None:
    made = priced(terms)
    issued = all_bills(contract(terms))
    totals = [bill_of(each).total for each in issued]
    assert totals == [each.amount for each in made.payments], "each bill is what the quote said, to the penny"
    if back and issued:
        issued = (*issued, credit(issued[0], next_number("7", issued), DAY))
        issued = all_bills(contract(terms), issued)
    bills = [bill_of(each) for each in issued]
    assert sum((each.net for each in bills), Decimal(0)) == made.before_vat
    assert sum((each.total for each in bills), Decimal(0)) == made.total
    assert sum((each.total - each.due for each in bills), Decimal(0)) == made.kept_back
    if terms.cis != cis.NONE and issued:
        assert sum((-(each.base or 0) if each.credits else each.base or 0 for each in issued), Decimal(0)) == made.cis.base
        assert all(0 <= (each.base or 0) <= abs(bill_of(each).net) for each in issued)
        assert all(each.kept_back == cis.of_base(each.base or Decimal(0), terms.cis) for each in issued), "the rate on what the bill says"
    numbers = [each.number for each in issued]
    assert len(set(numbers)) == len(numbers)


def test_a_bill_is_as_the_quote_said() -> None:
    terms = Terms(labour_rate=Decimal(40), deposit=Entry(30), boarded=Entry(35))
    made = priced(terms)
    bills = all_bills(contract(terms))
    assert [bill_of(each).total for each in bills] == [payment.amount for payment in made.payments]
    assert [each.number for each in bills] == ["7-1", "7-2", "7-3"]
    assert [each.what for each in bills] == [payment.when for payment in made.payments]


def test_a_bill_taken_back_is_asked_for_again_under_a_new_number() -> None:
    of = contract(Terms(labour_rate=Decimal(40)))
    first = next_invoice(of, (), "7-1", DAY)
    assert first is not None
    note = credit(first, "7-2", DAY)
    assert bill_of(note).total == -bill_of(first).total
    assert is_credited(first, (first, note))
    again = next_invoice(of, (first, note), next_number("7", (first, note)), DAY)
    assert again == replace(first, number="7-3")


def test_who_is_not_registered_bills_without_vat() -> None:
    bill = next_invoice(contract(Terms(labour_rate=Decimal(40), vat=NOT_REGISTERED)), (), "7-1", DAY)
    assert bill is not None
    assert bill_of(bill).vat_lines == ()
    assert bill_of(bill).total == bill_of(bill).net
