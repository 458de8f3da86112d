"""What the law and the tax authority have printed beside a price, in short, deferring to them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import Final

from tundish import measure
from tundish.documents.promised import Promise
from tundish.pricing.invoice import Invoice, bill_of
from tundish.pricing.late import OVER_BASE, base_rate, fixed_sum, pay_days
from tundish.pricing.terms import Terms
from tundish.pricing.vat import REASONS, STANDARD, VatLine
from tundish.pricing.vat_rounding import ROUNDINGS

OFFER: Final = {
    "a quotation": "The price holds for the work described; what is found on opening up is agreed before it is done.",
    "an estimate": "This is an estimate, my best judgement before opening up, and not a fixed price: you pay what the work reasonably"
    " comes to, and I tell you before it passes this sum.",
}
"""What a price means, by what it is called: a fixed price once accepted, or a best guess (published consumer advice)."""


def terms_of_money(promise: Promise) -> Iterator[str]:
    """How VAT stands on this bill, where it is not plain 20 %, and what a contractor keeps back."""
    terms = promise.terms
    used = {terms.vat_reason, *(extra.vat for extra in terms.extras)} if promise.vat_lines else set()
    for reason in (each for key, each in REASONS.items() if key in used and key != STANDARD):
        percent = reason.on(terms.quoted).normalize()
        yield f"VAT at {percent:f} %: {reason.words.lower()}. {reason.condition} HMRC's own guidance decides."
    yield from reverse_charges(promise.vat_lines)
    if promise.kept_back:
        yield (
            f"{terms.cis}: {measure.show_money(promise.kept_back)} is kept back and paid to HMRC;"
            f" {measure.show_money(promise.total - promise.kept_back)} is paid to me."
        )


def reverse_charges(lines: Iterable[VatLine]) -> Iterator[str]:
    """For each rate that is not charged: how much VAT the customer accounts for, and by what law."""
    for each in lines:
        if not each.charged:
            amount = measure.show_money(each.vat)
            yield f"{each.words}, {amount} on {measure.show_money(each.net)}. Domestic reverse charge, VAT Act 1994, section 55A."


def kept_back_from(invoice: Invoice) -> Iterator[str]:
    """Of how much of a bill a contractor keeps its part back, and what is left out of that (CISR15060, CISR15090)."""
    if invoice.base is not None and not invoice.credits:
        net = bill_of(invoice).net
        yield (
            f"{invoice.cis}: reckoned on {measure.show_money(invoice.base)}, which is {measure.show_money(net)} without VAT less"
            f" {measure.show_money(net - invoice.base)} for materials and hired plant at what they cost me."
        )


def how_rounded(lines: Iterable[VatLine], rounding: str) -> Iterator[str]:
    """How VAT is rounded, wherever an amount of it stands, and by which guidance."""
    if any(each.vat for each in lines):
        yield ROUNDINGS[rounding].words


def when_late(terms: Terms) -> str:
    """When a business is to pay, and what it owes when it is late."""
    percent = f"{base_rate(terms.quoted, terms).normalize():f} %"
    return (
        f"Bills are due within {pay_days(terms)} days. A late one bears interest at {OVER_BASE} % over the Bank of England's base rate of"
        f" the half-year ({percent} now) and a fixed sum from {measure.show_money(fixed_sum(Decimal(0)))},"
        " after the Late Payment of Commercial Debts (Interest) Act 1998."
    )


def rights(terms: Terms) -> Iterator[str]:
    """What the client may do, or owes when paying late, by who the client is; facts in short, the law decides."""
    if terms.client_is == "a business":
        yield when_late(terms)
        return
    yield (
        "If we agree this at your home, by telephone or by post, you may cancel within 14 days of the day it is agreed, without giving a"
        " reason, by telling me in writing. If you ask me to start sooner, you pay for what is done until you cancel. This is a summary:"
        " the Consumer Contracts Regulations 2013 decide."
    )
