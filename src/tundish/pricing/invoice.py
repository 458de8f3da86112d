"""Bills of a contract: one a payment, the last taking what is left, so that together they are the price to the penny."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from tundish.field import choice, date, flag, money, records, text
from tundish.pricing.cis import NONE, RATES, base_of, of_base
from tundish.pricing.contract import SINCE, Contract
from tundish.pricing.instalment import Part, instalment, part_of, parts_of
from tundish.pricing.numbers import next_after
from tundish.pricing.pennies import whole_step
from tundish.pricing.terms import REVERSE_CHARGE
from tundish.pricing.variation import MOST
from tundish.pricing.vat import VatLine, by_rate
from tundish.pricing.vat_rounding import ROUNDINGS


@dataclass(frozen=True, slots=True, kw_only=True)
class Charge:
    """One line of a bill. `percent` is its rate of VAT; blank where none is charged because the trader is not registered."""

    what: str = text("What")
    net: Decimal | None = money("Before VAT", least=-MOST)
    percent: Decimal | None = money("VAT, per cent", most=100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Invoice:
    """A bill as it was issued; amounts never change afterwards. `credits` names the bill that this one takes back.

    Under CIS so much was kept back of `base`: what it comes to before VAT, less what materials and hired plant cost.

    A credit note's amounts are kept as those of the bill that it takes back.
    """

    number: str = text("Invoice number")
    issued: str = date("Date")
    supplied: str = date("Supplied", "The day of the work it is for.")
    what: str = text("For")
    charges: tuple[Charge, ...] = records("Lines", Charge)
    reverse_charge: bool = flag("Reverse charge")
    rounding: str = choice("VAT is rounded", tuple(ROUNDINGS))
    kept_back: Decimal | None = money("Kept back (CIS)")
    base: Decimal | None = money("Kept back from (CIS)")
    cis: str = text("As (CIS)")
    credits: str = text("Credit for invoice")
    paid: str = date("Paid on")
    how: str = choice("Paid by", ("bank transfer", "card", "cash", "cheque"))
    settled: str = date("Interest settled on", "What was owed for paying it late was paid, or let off.")


@dataclass(frozen=True, slots=True)
class Bill:
    """What an invoice comes to. `due` is what is paid to the trader: less what a contractor keeps back."""

    net: Decimal
    vat_lines: tuple[VatLine, ...]
    vat: Decimal
    total: Decimal
    due: Decimal


def bill_of(invoice: Invoice) -> Bill:
    """The sums of an invoice, VAT rounded as it says; of a credit note below nothing."""
    sign = -1 if invoice.credits else 1
    net = sum((sign * (each.net or Decimal(0)) for each in invoice.charges), Decimal(0))
    rated = [(each.percent, sign * (each.net or Decimal(0))) for each in invoice.charges if each.percent is not None]
    lines = by_rate(rated, charged=not invoice.reverse_charge, rounding=invoice.rounding)
    vat = sum((each.vat for each in lines if each.charged), Decimal(0))
    kept = sign * (invoice.kept_back or Decimal(0))
    return Bill(net, lines, vat, net + vat, net + vat - kept)


def next_invoice(contract: Contract, issued: tuple[Invoice, ...], number: str, day: str) -> Invoice | None:
    """The bill for the next payment, None when all is billed or more than that; credited bills count as not issued.

    What is agreed after the last payment was billed has bills of its own.
    """
    place = len(standing(issued))
    if (place >= len(contract.shares) and not contract.agreed) or overbilled(contract, issued):
        return None
    made = (_bill(contract, issued, share) for share in (*contract.shares[place:-1], None))
    found = next((each for each in made if each.charges), None)
    if found and bill_of(found).total >= _to_bill(contract, issued):
        found = _bill(contract, issued, None)
    return replace(found, number=number, issued=day, supplied=day) if found else None


def bills_to_come(contract: Contract, issued: tuple[Invoice, ...]) -> tuple[Invoice, ...]:
    """Every bill that is still to be made when nothing changes any more, without a number."""
    made = issued
    while one := next_invoice(contract, made, f"{len(made)} to come", ""):
        made = (*made, one)
    return tuple(replace(each, number="") for each in made[len(issued) :])


def standing(issued: tuple[Invoice, ...]) -> tuple[Invoice, ...]:
    """The bills that were not taken back."""
    return tuple(each for each in issued if not each.credits and not is_credited(each, issued))


def overbilled(contract: Contract, issued: tuple[Invoice, ...]) -> bool:
    """Whether bills ask for more than is agreed now: the last is to be taken back and made again."""
    parts, left, base_left = _left(contract, issued)
    return bool(standing(issued)) and (
        base_left < 0 or any(rest * each.net < 0 or (rest and not each.net) for each, rest in zip(parts, left, strict=True))
    )


def credit(invoice: Invoice, number: str, day: str) -> Invoice:
    """The note that takes a bill back whole."""
    return Invoice(
        number=number, issued=day, supplied=invoice.supplied, what=f"Credit for invoice {invoice.number}", charges=invoice.charges,
        reverse_charge=invoice.reverse_charge, rounding=invoice.rounding, kept_back=invoice.kept_back, base=invoice.base, cis=invoice.cis,
        credits=invoice.number,
    )  # fmt: skip


def next_number(job: str, issued: Iterable[Invoice], given: Iterable[str] = ()) -> str:
    """The next number of a job's bills and credit notes, above all of them and all that were ever `given`: none is used again."""
    return next_after(f"{job}-" if job else "", (*(each.number for each in issued), *given))


def is_credited(invoice: Invoice, issued: Iterable[Invoice]) -> bool:
    """Whether a bill was taken back."""
    return any(each.credits == invoice.number for each in issued)


def _bill(contract: Contract, issued: tuple[Invoice, ...], share: tuple[str, Decimal] | None) -> Invoice:
    """So much of the contract as a bill, or, without a share, what is left of it."""
    parts, left, base_left = _left(contract, issued)
    terms, kept = contract.terms, sum((one.kept_back or Decimal(0) for one in standing(issued)), Decimal(0))
    if share is None:
        when = contract.shares[-1][0] if contract.shares and len(standing(issued)) < len(contract.shares) else SINCE
        nets, base, kept_back = left, base_left, contract.kept_back - kept
    else:
        when, percent = share
        nets = instalment(parts, left, percent, terms.cis)
        base = _share_of_base(contract, sum(left, Decimal(0)), base_left, sum(nets, Decimal(0)), percent)
        kept_back = of_base(base, terms.cis)
    several = len(parts) > 1
    charges = tuple(
        Charge(what=_words(when, each, several=several), net=net, percent=each.percent) for each, net in zip(parts, nets, strict=True)
    )
    if share is None and ROUNDINGS[terms.vat_rounding].by_line:
        charges = tuple(_row_by_row(contract, issued))
    bill = Invoice(
        what=when,
        charges=tuple(each for each in charges if each.net),
        reverse_charge=terms.vat == REVERSE_CHARGE,
        rounding=terms.vat_rounding,
    )
    return bill if terms.cis == NONE else replace(bill, kept_back=kept_back, base=base, cis=terms.cis)


def _row_by_row(contract: Contract, issued: tuple[Invoice, ...]) -> Iterator[Charge]:
    """Every row of the price, less every line that was billed: VAT by the line is that of the whole less that of the bills before.

    A line that takes another back to the penny is left out with it.
    """
    made = [Charge(what=what, net=net, percent=percent) for what, percent, net in contract.rows]
    for one in standing(issued):
        for each in one.charges:
            less = Charge(
                what=f"Less invoice {one.number}: {each.what[:1].lower()}{each.what[1:]}",
                net=-(each.net or Decimal(0)),
                percent=each.percent,
            )
            same = next((other for other in made if other.net == each.net and other.percent == each.percent), None)
            if same is None:
                made.append(less)
            else:
                made.remove(same)
    yield from made


def _to_bill(contract: Contract, issued: tuple[Invoice, ...]) -> Decimal:
    """What is still to be asked for, with VAT."""
    return contract.total - sum((bill_of(each).total for each in standing(issued)), Decimal(0))


def _share_of_base(contract: Contract, left: Decimal, base_left: Decimal, net: Decimal, percent: Decimal) -> Decimal:
    """Of what a part comes to, all but its share of the materials and hired plant; no more than is left."""
    left_out = part_of(contract.net - contract.base, left - base_left, percent, whole_step(RATES[contract.terms.cis]))
    return max(min(net - left_out, base_left), Decimal(0))


def _left(contract: Contract, issued: tuple[Invoice, ...]) -> tuple[tuple[Part, ...], tuple[Decimal, ...], Decimal]:
    """The parts of the contract, and those billed that it has no more; what is left to bill of each; and of what CIS reckons on."""
    billed = {
        each.percent: each.net
        for each in parts_of((each.what, each.percent, each.net or Decimal(0)) for one in standing(issued) for each in one.charges)
    }
    agreed = {each.percent for each in contract.parts}
    parts = (*contract.parts, *(Part(percent, Decimal(0)) for percent in billed if percent not in agreed))
    left = tuple(each.net - billed.get(each.percent, Decimal(0)) for each in parts)
    reckoned = sum((base_of(one.base, one.kept_back, contract.terms.cis) for one in standing(issued)), Decimal(0))
    return parts, left, contract.base - reckoned


def _words(when: str, part: Part, *, several: bool) -> str:
    """What a line of a bill is for: the payment, and the rate where there are several."""
    return f"{when}, work at {part.percent.normalize():f} % VAT" if several and part.percent is not None else when
