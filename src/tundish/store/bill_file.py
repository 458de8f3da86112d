"""A bill or credit note as UBL 2.1 opened: what it says, and everything in it that does not hold by EN 16931's own sums and rules."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Final

from tundish import measure
from tundish.errors import TundishError
from tundish.pricing.pennies import PENNY, penny
from tundish.store.read_xml import SPACES, NotSoundError, root_of, words

ROOT: Final = "{{urn:oasis:names:specification:ubl:schema:xsd:{0}-2}}{0}"
KINDS: Final = {ROOT.format("Invoice"): "invoice", ROOT.format("CreditNote"): "credit note"}
CHARGED: Final = "S"
CATEGORIES: Final = ("S", "Z", "E", "AE", "O", "K", "G", "L", "M")
"""UNCL 5305 as EN 16931 takes it: at a rate, at nought, exempt, reverse charge, outside VAT, and abroad."""
MOST_LINES: Final = 5_000
_TOTAL: Final = "cac:LegalMonetaryTotal/cbc"
_NOTHING: Final = Decimal(0)
_AMOUNT: Final = re.compile(r"[+-]?[0-9]{1,9}(\.[0-9]{1,6})?")


class CannotReadBillError(TundishError):
    """A file is no bill that could be read: which and why."""

    def __init__(self, name: str, why: str) -> None:
        super().__init__(f"{name} is not read: {why}.")


@dataclass(frozen=True, slots=True)
class BilledLine:
    """One line: so much of what the seller knows by `code`, at a price each, and its sum before VAT; `percent` by its category."""

    code: str
    name: str
    amount: Decimal
    each: Decimal
    net: Decimal
    category: str
    percent: Decimal


@dataclass(frozen=True, slots=True)
class Besides:
    """What is added to the whole bill, such as carriage, or taken off it, below nought, before VAT."""

    why: str
    amount: Decimal
    category: str
    percent: Decimal


@dataclass(frozen=True, slots=True)
class BillFile:
    """What a bill says, amounts as they stand in it: those of a credit note are given back. `problems`: what of it does not hold."""

    name: str
    kind: str
    number: str
    issued: str
    due: str
    seller: str
    buyer: str
    order: str
    credits: str
    lines: tuple[BilledLine, ...]
    besides: tuple[Besides, ...]
    net: Decimal
    vat: Decimal
    total: Decimal
    payable: Decimal
    problems: tuple[str, ...] = ()


def is_bill(path: Path) -> bool:
    """Whether a file is an invoice or a credit note that can be read safely."""
    try:
        return root_of(path).tag in KINDS
    except NotSoundError:
        return False


def read_bill_file(path: Path) -> BillFile:
    """The bill that a file holds, with every problem in it. Raises CannotReadBillError where it is none, or no safe one."""
    try:
        root = root_of(path)
    except NotSoundError as fault:
        raise CannotReadBillError(path.name, str(fault)) from fault
    kind = KINDS.get(root.tag)
    if kind is None:
        raise CannotReadBillError(path.name, "it is XML, but no UBL invoice or credit note")
    told: list[str] = []
    lines = root.findall("cac:InvoiceLine" if kind == "invoice" else "cac:CreditNoteLine", SPACES)
    if len(lines) > MOST_LINES:
        raise CannotReadBillError(path.name, f"it has more than {MOST_LINES:,} lines")
    bill = BillFile(
        path.name, kind, words(root, "cbc:ID"), words(root, "cbc:IssueDate"),
        words(root, "cbc:DueDate") or words(root, "cac:PaymentMeans/cbc:PaymentDueDate"),
        _party(root, "Supplier"), _party(root, "Customer"),
        words(root, "cac:OrderReference/cbc:ID"), words(root, "cac:BillingReference/cac:InvoiceDocumentReference/cbc:ID"),
        tuple(_line(each, place, kind, told) for place, each in enumerate(lines, 1)),
        tuple(_besides(each, told) for each in root.findall("cac:AllowanceCharge", SPACES)),
        _money(root, f"{_TOTAL}:TaxExclusiveAmount", "its sum before VAT", told),
        _money(root, "cac:TaxTotal/cbc:TaxAmount", "its VAT", told, must=False),
        _money(root, f"{_TOTAL}:TaxInclusiveAmount", "its sum with VAT", told),
        _money(root, f"{_TOTAL}:PayableAmount", "what is to be paid", told),
    )  # fmt: skip
    return replace(bill, problems=tuple(dict.fromkeys((*told, *_lacking(root, bill), *_sums(root, bill), *_rates(root, bill)))))


def _party(root: ET.Element, whose: str) -> str:
    party = f"cac:Accounting{whose}Party/cac:Party"
    return words(root, f"{party}/cac:PartyLegalEntity/cbc:RegistrationName") or words(root, f"{party}/cac:PartyName/cbc:Name")


def _line(line: ET.Element, place: int, kind: str, told: list[str]) -> BilledLine:
    """One line; what it comes to is held against its own price and amount (BT-131; the price may be for several, BT-149)."""
    what = f"line {place}"
    amount = _money(line, "cbc:InvoicedQuantity" if kind == "invoice" else "cbc:CreditedQuantity", f"the amount of {what}", told)
    each = _money(line, "cac:Price/cbc:PriceAmount", f"the price of {what}", told)
    base = _money(line, "cac:Price/cbc:BaseQuantity", f"what the price of {what} is for", told, must=False) or Decimal(1)
    net = _money(line, "cbc:LineExtensionAmount", f"the sum of {what}", told)
    more = sum((_signed(part, told).amount for part in line.findall("cac:AllowanceCharge", SPACES)), _NOTHING)
    made = amount * each / base + more
    if abs(penny(made) - net) > PENNY:
        told.append(f"{what} says {_pounds(net)}, and comes to {_pounds(penny(made))}")
    code = words(line, "cac:Item/cac:SellersItemIdentification/cbc:ID")
    category, percent = _category(line.find("cac:Item/cac:ClassifiedTaxCategory", SPACES), what, told)
    return BilledLine(code, words(line, "cac:Item/cbc:Name"), amount, each / base, net, category, percent)


def _besides(part: ET.Element, told: list[str]) -> Besides:
    made = _signed(part, told)
    category, percent = _category(part.find("cac:TaxCategory", SPACES), made.why.lower(), told)
    return replace(made, category=category, percent=percent)


def _signed(part: ET.Element, told: list[str]) -> Besides:
    added = words(part, "cbc:ChargeIndicator").lower() in {"true", "1"}
    why = words(part, "cbc:AllowanceChargeReason") or ("Charge" if added else "Allowance")
    amount = _money(part, "cbc:Amount", f"the amount of {why.lower()}", told)
    return Besides(why, amount if added else -amount, "", _NOTHING)


def _category(part: ET.Element | None, what: str, told: list[str]) -> tuple[str, Decimal]:
    code = words(part, "cbc:ID") if part is not None else ""
    if code not in CATEGORIES:
        told.append(f"{what} has no category of VAT that there is (BR-CO-4)")
    percent = _money(part, "cbc:Percent", f"the rate of {what}", told, must=code == CHARGED) if part is not None else _NOTHING
    if code != CHARGED and percent:
        told.append(f"{what} has a rate of VAT, and a category that has none")
    return code, percent


def _lacking(root: ET.Element, bill: BillFile) -> Iterator[str]:
    """What must stand on every bill (BR-2, 3, 5, 6, 7, 16) and the currency that can be reckoned with here."""
    asked = ((bill.number, "number (BR-2)"), (bill.issued, "date (BR-3)"), (bill.seller, "seller (BR-6)"), (bill.buyer, "buyer (BR-7)"))
    yield from (f"it has no {what}" for has, what in asked if not has)
    yield from (f'"{day}" is no day' for day in (bill.issued, bill.due) if day and not _is_day(day))
    if not bill.lines:
        yield "it has no lines (BR-16)"
    currency = words(root, "cbc:DocumentCurrencyCode")
    if currency != "GBP":
        yield f"it is in {currency[:10] or 'no currency'} (BR-5), and prices here are in GBP"
    others = {each.get("currencyID", "") for each in root.iter() if each.get("currencyID")} - {currency}
    if others:
        yield f"amounts of it are in {', '.join(sorted(others))[:40]}"


def _sums(root: ET.Element, bill: BillFile) -> Iterator[str]:
    """The sums by the rules that every one follows (BR-CO-10, 11, 12, 13, 14, 15, 16)."""
    lines = sum((each.net for each in bill.lines), _NOTHING)
    besides = sum((each.amount for each in bill.besides), _NOTHING)
    told: list[str] = []
    said = _money(root, f"{_TOTAL}:LineExtensionAmount", "the sum of its lines", told)
    before, rounding = (
        _money(root, f"{_TOTAL}:{name}", what, told, must=False)
        for name, what in (("PrepaidAmount", "what is paid already"), ("PayableRoundingAmount", "its rounding"))
    )
    parts = [_money(each, "cbc:TaxAmount", "a part of its VAT", told) for each in root.findall("cac:TaxTotal/cac:TaxSubtotal", SPACES)]
    yield from told
    for what, says, comes_to, rule in (
        ("its lines are said to come to", said, lines, "BR-CO-10"),
        ("before VAT it says", bill.net, lines + besides, "BR-CO-13"),
        ("its VAT is said to be", bill.vat, sum(parts, _NOTHING), "BR-CO-14"),
        ("with VAT it says", bill.total, bill.net + bill.vat, "BR-CO-15"),
        ("to be paid it says", bill.payable, bill.total - before + rounding, "BR-CO-16"),
    ):
        if says != comes_to:
            yield f"{what} {_pounds(says)}, and comes to {_pounds(comes_to)} ({rule})"


def _rates(root: ET.Element, bill: BillFile) -> Iterator[str]:
    """What falls under each rate, and the VAT on it (BR-S-8, BR-CO-17, BR-CO-18), to a penny for each line: it may go by the line."""
    nets: dict[tuple[str, Decimal], Decimal] = defaultdict(Decimal)
    counts: Counter[tuple[str, Decimal]] = Counter()
    parts = [(each.category, each.percent, each.net) for each in bill.lines]
    for kind, at, amount in (*parts, *((each.category, each.percent, each.amount) for each in bill.besides)):
        nets[kind, at.normalize()] += amount
        counts[kind, at.normalize()] += 1
    told: list[str] = []
    for part in root.findall("cac:TaxTotal/cac:TaxSubtotal", SPACES):
        category, percent = _category(part.find("cac:TaxCategory", SPACES), "a part of its VAT", told)
        taxed = _money(part, "cbc:TaxableAmount", "what a rate of VAT is on", told)
        vat = _money(part, "cbc:TaxAmount", "a part of its VAT", told)
        rate = f"{percent.normalize():f} %"
        if (net := nets.pop((category, percent.normalize()), None)) is None:
            told.append(f"it has VAT at {rate} ({category}) and nothing that falls under it")
        elif net != taxed:
            told.append(f"at {rate} ({category}) it says {_pounds(taxed)}, and {_pounds(net)} falls under it (BR-S-8)")
        worked = penny(taxed * percent / 100)
        if abs(worked - vat) > PENNY * max(1, counts[category, percent.normalize()]):
            told.append(f"VAT at {rate} of {_pounds(taxed)} is {_pounds(worked)}, and it says {_pounds(vat)} (BR-CO-17)")
    yield from told
    yield from (f"its sums of VAT leave out {percent:f} % ({category or 'no category'}, BR-CO-18)" for category, percent in nets)


def _money(part: ET.Element, path: str, what: str, told: list[str], *, must: bool = True) -> Decimal:
    """The number at a path; nothing where there is none or no number, which is told."""
    said = words(part, path)
    if _AMOUNT.fullmatch(said):
        return Decimal(said)
    if said or must:
        told.append(f'{what} is "{said[:40]}", which is no amount' if said else f"{what} is missing")
    return _NOTHING


def _is_day(words_: str) -> bool:
    try:
        return bool(date.fromisoformat(words_))
    except ValueError:
        return False


def _pounds(amount: Decimal) -> str:
    return measure.show_money(amount)
