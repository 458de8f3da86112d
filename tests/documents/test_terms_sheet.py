"""The sheet of terms: payments of the job, what its offer means, the trader's own words, and the law by who the client is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from tundish.documents import terms_sheet
from tundish.documents.block import Document, Points
from tundish.estimate import Estimate
from tundish.measure import show_money
from tundish.pricing.contract import contract_of
from tundish.pricing.invoice import bill_of, bills_to_come, next_invoice
from tundish.varying import agree
from tundish.writers.text import as_text

Changed = Callable[..., Estimate]


def items(made: Document, title: str) -> tuple[str, ...]:
    return next((block.items for block in made.blocks if isinstance(block, Points) and block.title == title), ())


def test_every_payment_stands_on_it_and_they_make_the_price(one: Estimate) -> None:
    paying = items(terms_sheet.build(one), "Paying")
    asked = [each for each in one.price.payments if any(show_money(each.amount) in words for words in paying)]
    assert asked == list(one.price.payments)
    assert sum(each.amount for each in asked) == one.price.total


def test_a_quotation_and_an_estimate_promise_different_things(changed: Changed) -> None:
    fixed = items(terms_sheet.build(changed("101", terms__offer="a quotation")), "The price")[0]
    guess = items(terms_sheet.build(changed("101", terms__offer="an estimate")), "The price")[0]
    assert "The price holds" in fixed
    assert "not a fixed price" in guess


def test_how_long_the_price_is_good_for_is_one_sentence(changed: Changed) -> None:
    (said,) = [each for each in items(terms_sheet.build(changed("101")), "The price") if each.startswith("Quoted")]
    assert (
        said
        == "Quoted Tue 17 Nov 2026, good for 26 days, to Sun 13 Dec, on goods priced from Mon 14 Sep. Prices of goods may change after."
    )


def test_a_home_may_cancel_and_a_business_owes_interest(changed: Changed) -> None:
    home = " ".join(items(terms_sheet.build(changed("101", terms__client_is="a private person at home")), "What the law says, in short"))
    firm = " ".join(items(terms_sheet.build(changed("101", terms__client_is="a business")), "What the law says, in short"))
    assert "cancel within 14 days" in home
    assert "8 % over the Bank of England's base rate" in firm
    assert "cancel" not in firm


def test_the_traders_own_terms_are_printed_as_typed_a_line_each(worked: dict[str, Estimate]) -> None:
    typed = "No parking, no start.\n<b>=1+1</b> & {0}\n\u202etfel"
    book = replace(worked["101"].book, trader=replace(worked["101"].book.trader, name="M. Tarrowby", terms=typed))
    made = terms_sheet.build(replace(worked["101"], book=book))
    assert items(made, "My own terms") == tuple(typed.split("\n"))
    assert "- No parking, no start." in as_text(made)
    assert not items(terms_sheet.build(worked["101"]), "My own terms")


def test_once_accepted_the_payments_are_those_of_what_was_agreed_and_what_is_billed_is_said(one: Estimate, changed: Changed) -> None:
    job = replace(one.job, agreed=agree(one, "2026-12-01"))
    contract = contract_of(one.price, job.terms, job.agreed)
    bill = next_invoice(contract, (), "101-1", "2026-12-02")
    assert bill is not None
    dearer = changed("101", terms__labour_rate=Decimal(400))
    made = terms_sheet.build(replace(dearer, job=replace(dearer.job, agreed=job.agreed, invoices=(bill,))))
    assert f"Accepted on Tue 1 Dec 2026 at {show_money(one.price.total)}." in items(made, "The price")
    paying = items(made, "Paying")
    assert paying[0] == f"With your acceptance: {show_money(bill_of(bill).total)}, by invoice 101-1."
    rest = [show_money(bill_of(each).total) for each in bills_to_come(contract, (bill,))]
    assert len(rest) == 2
    assert [words.removesuffix(".").rsplit(": ", 1)[1] for words in paying[1:3]] == rest
