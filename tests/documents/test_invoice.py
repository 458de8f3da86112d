"""What stands on an invoice, a receipt and a credit note, by who is billed and how VAT stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from tundish.documents import invoice, quote
from tundish.documents.terms import when_late
from tundish.estimate import Estimate
from tundish.pricing.invoice import Charge, Invoice, credit
from tundish.writers.text import as_text

Changed = Callable[..., Estimate]
BILL = Invoice(
    number="101-1",
    issued="2026-12-07",
    supplied="2026-12-04",
    charges=(Charge(what="With your acceptance", net=Decimal("700.00"), percent=Decimal(20)),),
)


def words(estimate: Estimate, bill: Invoice) -> str:
    return " ".join(as_text(invoice.build(estimate, bill)).split())


def test_a_private_person_is_asked_to_pay_with_the_number_both_names_and_both_dates(worked: dict[str, Estimate]) -> None:
    said = words(worked["101"], BILL)
    for piece in ("Invoice 101-1", "Ms R. Hathersby", "M. Tarrowby", "Mon 7 Dec 2026", "Supplied Fri 4 Dec 2026", "700.00", "840.00"):
        assert piece in said, piece
    assert "Please pay within 14 days" in said
    assert "Late Payment" not in said


def test_a_business_is_told_what_a_late_bill_costs_as_on_its_quote(changed: Changed) -> None:
    made = changed("101", terms__client_is="a business")
    late = when_late(made.job.terms)
    assert late in words(made, BILL)
    assert late in " ".join(as_text(quote.build(made)).split())


@pytest.mark.parametrize("paid", ["", "2026-12-09"])
def test_how_vat_was_rounded_stands_on_bill_and_receipt(worked: dict[str, Estimate], paid: str) -> None:
    said = words(worked["101"], replace(BILL, paid=paid))
    assert "VAT is on the total at each rate, to the nearest penny, half a penny rounded up (HMRC, VATREC12030)" in said
    unrated = replace(BILL, charges=(Charge(what="work", net=Decimal(10)),))
    assert "rounded" not in words(worked["101"], unrated)


def test_what_is_paid_is_a_receipt_and_asks_for_nothing(worked: dict[str, Estimate]) -> None:
    said = words(worked["101"], replace(BILL, paid="2026-12-09", how="bank transfer"))
    assert said.count("Receipt 101-1")
    assert "Paid on Wed 9 Dec 2026 by bank transfer, with thanks." in said
    assert "Please pay" not in said


def test_a_client_s_vat_number_stands_on_a_bill_with_vat(changed: Changed) -> None:
    made = changed("101", client__vat_number="GB 111 1111 11")
    assert "VAT reg. GB 111 1111 11" in words(made, BILL)
    assert "VAT reg. GB 111 1111 11" not in words(made, replace(BILL, charges=(Charge(what="work", net=Decimal(10)),)))


def test_a_credit_note_takes_back_to_the_penny(worked: dict[str, Estimate]) -> None:
    said = words(worked["101"], credit(BILL, "101-2", "2026-12-08"))
    assert "Credit note 101-2" in said
    assert "This takes back invoice 101-1" in said
    assert "840.00" in said
    assert "Please pay" not in said


def test_a_bill_that_was_paid_or_taken_back_asks_for_nothing_and_only_what_was_paid_is_paid_back(changed: Changed) -> None:
    note, paid = credit(BILL, "101-2", "2026-12-08"), replace(BILL, paid="2026-12-07")
    unpaid = changed("101", invoices=(BILL, note))
    assert "No longer to be paid" in words(unpaid, note)
    assert "This takes back invoice 101-1: nothing of it is to be paid." in words(unpaid, note)
    said = words(unpaid, BILL)
    assert "Taken back by credit note 101-2: nothing of it is to be paid." in said
    assert "Please pay" not in said
    assert "Due " not in said
    back = changed("101", invoices=(paid, note))
    assert "To be paid back" in words(back, note)
    assert "invoice 101-1, which was paid on Mon 7 Dec 2026: the money is paid back." in words(back, note)
    receipt = words(changed("101", invoices=(paid,)), paid)
    assert "To pay" not in receipt
    assert "Paid £840.00" in receipt


def test_under_the_reverse_charge_the_amount_is_told_and_not_asked_for(changed: Changed) -> None:
    said = words(changed("101", terms__client_is="a business"), replace(BILL, reverse_charge=True))
    assert "£140.00 on £700.00. Domestic reverse charge, VAT Act 1994, section 55A." in said
    assert "840.00" not in said


@pytest.mark.parametrize("charges", [(), (Charge(what="", net=None, percent=None),)])
def test_a_bill_for_nothing_is_still_a_paper(charges: tuple[Charge, ...], worked: dict[str, Estimate]) -> None:
    assert "To pay" in words(worked["101"], Invoice(number="101-9", charges=charges))


def test_every_bill_of_a_job_is_a_paper_of_its_own(changed: Changed) -> None:
    made = invoice.build_all(changed("101", invoices=(BILL, credit(BILL, "101-2", "2026-12-08"))))
    assert [each.number for each in made] == ["101-1", "101-2"]
    assert len({each.key for each in made}) == len({each.name for each in made}) == 2
