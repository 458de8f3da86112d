"""An invoice, its receipt once it is paid, and a credit note: what the law asks to stand on each."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from tundish import measure
from tundish.documents.block import Block, Column, Document, Facts, Paragraph, Row, Sums, Table
from tundish.documents.paper import lines_of, paper, trader_of
from tundish.documents.terms import how_rounded, kept_back_from, reverse_charges, when_late
from tundish.estimate import Estimate
from tundish.pricing.invoice import Invoice, bill_of
from tundish.pricing.late import A_BUSINESS, due_of, pay_days
from tundish.pricing.terms import Terms

_COLUMNS = (Column("For", "text", 3.4, "strong"), Column("VAT, %", "percent", 0.8), Column("Before VAT, £", "money", 1.2, "strong"))


def build_all(estimate: Estimate) -> tuple[Document, ...]:
    """Every bill and credit note of the job, in the order of their numbers."""
    return tuple(build(estimate, each) for each in estimate.job.invoices)


def build(estimate: Estimate, invoice: Invoice) -> Document:
    """One bill: number, both parties, dates, what it is for, VAT by rate, what is to pay (SI 1995/2518, regulation 14; gov.uk's list)."""
    bill, sign = bill_of(invoice), -1 if invoice.credits else 1
    rows = tuple(Row((each.what, each.percent, sign * (each.net or Decimal(0)))) for each in invoice.charges)
    sums = [("Before VAT", bill.net)] if bill.vat_lines else []
    sums += [(each.words, each.vat) for each in bill.vat_lines if each.charged]
    if invoice.kept_back:
        sums += [("Total", bill.total), (f"Kept back and paid to HMRC ({invoice.cis or 'CIS'})", bill.due - bill.total)]
    sums.append((_due_words(invoice, estimate.job.invoices), bill.due))
    title = "Credit note" if invoice.credits else "Receipt" if invoice.paid else "Invoice"
    table = Table(_COLUMNS, rows)
    blocks: tuple[Block, ...] = (_facts(estimate, invoice), table, Sums(tuple(sums), table), *_notes(estimate, invoice))
    made = paper(estimate, f"invoice-{invoice.number}", title, blocks, tables_only=True)
    name = made.name.replace(f"{title} {estimate.job.number}".strip(), f"{title} {invoice.number}", 1)
    return replace(made, number=invoice.number, name=name)


def when_to_pay(invoice: Invoice, terms: Terms, issued: Iterable[Invoice] = ()) -> str:
    """When a bill is to be paid and what a late one costs, how it was paid, or what it takes back or was taken back by.

    `issued` are the bills and credit notes of the job.
    """
    if invoice.credits:
        paid = next((each for each in issued if each.number == invoice.credits and each.paid), None)
        back = f", which was paid on {measure.show_date(paid.paid)}: the money is paid back" if paid else ": nothing of it is to be paid"
        return f"This takes back invoice {invoice.credits}{back if issued else ''}."
    note = _taken_back(invoice, issued)
    if note:
        return f"Taken back by credit note {note}: nothing of it is to be paid."
    if invoice.paid:
        return f"Paid on {measure.show_date(invoice.paid)} by {invoice.how}, with thanks."
    return when_late(terms) if terms.client_is == A_BUSINESS else f"Please pay within {pay_days(terms)} days, giving the invoice number."


def _due_words(invoice: Invoice, issued: Iterable[Invoice]) -> str:
    """What the last sum of a bill is: a bill that was not paid is not paid back, and what was paid is not to pay."""
    if invoice.credits:
        paid = any(each.number == invoice.credits and each.paid for each in issued)
        return "To be paid back" if paid else "No longer to be paid"
    if _taken_back(invoice, issued):
        return "Taken back"
    return "Paid" if invoice.paid else "To pay"


def _taken_back(invoice: Invoice, issued: Iterable[Invoice]) -> str:
    """The number of the credit note that takes a bill back, or nothing."""
    return next((each.number for each in issued if each.credits and each.credits == invoice.number), "")


def _facts(estimate: Estimate, invoice: Invoice) -> Facts:
    trader, client = trader_of(estimate), estimate.job.client
    rated = bool(bill_of(invoice).vat_lines)
    vat, theirs = (_registered(each.vat_number if rated else "") for each in (trader, client))
    sender = (trader.name, *lines_of(trader.address), *(word for word in (trader.phone, trader.email) if word), *vat)
    dates = [f"Date {measure.show_date(invoice.issued)}"] if invoice.issued else []
    dates += [f"Supplied {measure.show_date(invoice.supplied)}"] if invoice.supplied else []
    due = due_of(invoice, estimate.job.terms)
    open_ = not invoice.paid and not invoice.credits and not _taken_back(invoice, estimate.job.invoices)
    dates += [f"Due {measure.show_date(due)}"] if due and open_ else []
    return Facts((("To", (client.name, *lines_of(client.address), *theirs)), ("From", sender), ("Dates", tuple(dates))))


def _registered(number: str) -> tuple[str, ...]:
    return (f"VAT reg. {number}",) if number else ()


def _notes(estimate: Estimate, invoice: Invoice) -> tuple[Block, ...]:
    reverse = reverse_charges(bill_of(invoice).vat_lines)
    when = when_to_pay(invoice, estimate.job.terms, estimate.job.invoices)
    words = (when, *reverse) if invoice.paid else (*reverse, when)
    words = (*words, *kept_back_from(invoice), *how_rounded(bill_of(invoice).vat_lines, invoice.rounding))
    return tuple(Paragraph(each, "note") for each in words)
