"""Bills from an accepted price: one a payment, the last taking what is left, so that together they are the price to the penny."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from tundish.field import choice, date, flag, money, records, text
from tundish.pricing import cis
from tundish.pricing.pennies import penny
from tundish.pricing.price import Price
from tundish.pricing.terms import REVERSE_CHARGE, Terms
from tundish.pricing.vat import VatLine, by_rate


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """One line of a bill. `percent` is its rate of VAT; blank where none is charged because the trader is not registered."""

    what: str = text("What")
    net: Decimal | None = money("Before VAT")
    percent: Decimal | None = money("VAT, per cent", most=100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Invoice:
    """A bill as it was issued; amounts never change afterwards. `credits` names the bill that this one takes back.

    A credit note's amounts are kept as those of the bill that it takes back.
    """

    number: str = text("Invoice number")
    issued: str = date("Date")
    supplied: str = date("Supplied", "The day of the work it is for.")
    what: str = text("For")
    charges: tuple[Charge, ...] = records("Lines", Charge)
    reverse_charge: bool = flag("Reverse charge")
    kept_back: Decimal | None = money("Kept back (CIS)")
    credits: str = text("Credit for invoice")
    paid: str = date("Paid on")
    how: str = choice("Paid by", ("bank transfer", "card", "cash", "cheque"))


@dataclass(frozen=True, slots=True)
class Bill:
    """What an invoice comes to. `due` is what is paid to the trader: less what a contractor keeps back."""

    net: Decimal
    vat_lines: tuple[VatLine, ...]
    vat: Decimal
    total: Decimal
    due: Decimal


def bill_of(invoice: Invoice) -> Bill:
    """The sums of an invoice, VAT on the whole of each rate; of a credit note below nothing."""
    sign = -1 if invoice.credits else 1
    net = sum((sign * (each.net or Decimal(0)) for each in invoice.charges), Decimal(0))
    rated = [(each.percent, sign * (each.net or Decimal(0))) for each in invoice.charges if each.percent is not None]
    lines = by_rate(rated, charged=not invoice.reverse_charge)
    vat = sum((each.vat for each in lines if each.charged), Decimal(0))
    kept = sign * (invoice.kept_back or Decimal(0))
    return Bill(net, lines, vat, net + vat, net + vat - kept)


def next_invoice(price: Price, terms: Terms, issued: tuple[Invoice, ...], number: str, day: str) -> Invoice | None:
    """The bill for the next payment, None when all is billed; credited bills count as not issued."""
    standing = _standing(issued)
    place = len(standing)
    if place >= len(price.payments):
        return None
    payment = price.payments[place]
    rates: list[tuple[Decimal | None, Decimal]] = [(each.percent, each.net) for each in price.vat_lines]
    rates = rates or [(None, price.before_vat)]
    billed = [sum((_at(one, percent) for one in standing), Decimal(0)) for percent, _ in rates]
    last = place == len(price.payments) - 1
    share = payment.amount / price.total if price.total else Decimal(0)
    nets = [net - done if last else penny(net * share) for (_, net), done in zip(rates, billed, strict=True)]
    charges = tuple(
        Charge(what=_words(payment.when, percent, several=len(rates) > 1), net=net, percent=percent)
        for (percent, _), net in zip(rates, nets, strict=True)
        if net
    )
    kept = sum((one.kept_back or Decimal(0) for one in standing), Decimal(0))
    kept_back = price.kept_back - kept if last else penny(price.kept_back * share)
    return Invoice(
        number=number,
        issued=day,
        supplied=day,
        what=payment.when,
        charges=charges,
        reverse_charge=terms.vat == REVERSE_CHARGE,
        kept_back=kept_back if terms.cis != cis.NONE else None,
    )


def credit(invoice: Invoice, number: str, day: str) -> Invoice:
    """The note that takes a bill back whole."""
    return Invoice(
        number=number, issued=day, supplied=invoice.supplied, what=f"Credit for invoice {invoice.number}", charges=invoice.charges,
        reverse_charge=invoice.reverse_charge, kept_back=invoice.kept_back, credits=invoice.number,
    )  # fmt: skip


def next_number(job: str, issued: Iterable[Invoice]) -> str:
    """The next number of a job's bills and credit notes; numbers follow one another and none is used again."""
    return f"{job}-{len(tuple(issued)) + 1}" if job else f"{len(tuple(issued)) + 1}"


def is_credited(invoice: Invoice, issued: Iterable[Invoice]) -> bool:
    """Whether a bill was taken back."""
    return any(each.credits == invoice.number for each in issued)


def _standing(issued: tuple[Invoice, ...]) -> tuple[Invoice, ...]:
    return tuple(each for each in issued if not each.credits and not is_credited(each, issued))


def _at(invoice: Invoice, percent: Decimal | None) -> Decimal:
    return sum((each.net or Decimal(0) for each in invoice.charges if each.percent == percent), Decimal(0))


def _words(when: str, percent: Decimal | None, *, several: bool) -> str:
    return f"{when}, work at {percent.normalize():f} % VAT" if several and percent is not None else when
