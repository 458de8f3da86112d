"""What Where from shows for the price and for a stage of it."""

from __future__ import annotations

from decimal import Decimal

from tundish import measure
from tundish.desktop.receipt import ReceiptLine, Section, WhereFromView
from tundish.estimate import Estimate
from tundish.pricing.price import StagePrice, Worked


def price_view(estimate: Estimate) -> WhereFromView:
    """The price, from its stages down to what the client pays."""
    price = estimate.price
    rows = [ReceiptLine("worked out", each.name, _money(each.price), link=f"stage:{each.stage}") for each in price.stages]
    rows += [ReceiptLine("own rate", each.name, _money(each.amount)) for each in price.beside]
    rows.append(ReceiptLine("worked out", "Before VAT", _money(price.before_vat), is_subtotal=True))
    if price.vat_lines:
        rows += [ReceiptLine("rule", each.words, _money(each.vat if each.charged else Decimal(0))) for each in price.vat_lines]
        rows.append(ReceiptLine("worked out", "You charge", _money(price.total), is_subtotal=True))
    if price.kept_back:
        rows += _kept_back(estimate)
    warning = "" if price.labour_priced else "Not all labour is in it: somebody who works has no rate yet, on Pricing."
    if price.not_priced:
        warning = f"Not priced, and not in it: {', '.join(price.not_priced[:3])}."
    return WhereFromView("Price", _money(price.total), "£", under_title="what the client pays", lines=tuple(rows), warning=warning)


def _kept_back(estimate: Estimate) -> list[ReceiptLine]:
    """What a contractor keeps back, and what of the price that is reckoned on."""
    cis = estimate.price.cis
    return [
        ReceiptLine("worked out", "Materials and their delivery, at cost", _money(-cis.materials)),
        ReceiptLine("worked out", "Plant and tools hired in, at cost", _money(-cis.hired)),
        ReceiptLine("rule", "The contractor reckons on", _money(cis.base), "before VAT, less those two", is_subtotal=True),
        ReceiptLine("rule", f"Kept back, {estimate.job.terms.cis}", _money(-cis.kept_back)),
    ]


def stage_sections(stage: StagePrice) -> tuple[Section, ...]:
    """Below the hours of a stage: who works them, and how its price is built up."""
    who = tuple(ReceiptLine("own rate", each.name, _money(each.amount), _hours(each)) for each in stage.people)
    lasts = ReceiptLine("worked out", "The work lasts", f"{measure.show_hours(stage.lasts)} h", is_subtotal=True)
    parts = (
        ("Materials", stage.materials),
        ("Mark-up", stage.mark_up),
        ("Labour", stage.labour),
        ("Overhead", stage.overhead),
        ("Contingency", stage.contingency),
        ("Rounding", stage.rounding),
    )
    built = tuple(ReceiptLine("", words, _money(amount)) for words, amount in parts if amount)
    price = ReceiptLine("worked out", "Price before VAT", _money(stage.price), is_subtotal=True)
    return (*((Section("Who works", (*who, lasts)),) if who else ()), Section("Its price", (*built, price)))


def _hours(each: Worked) -> str:
    at = "no rate yet" if each.rate is None else f"at {measure.show_money(each.rate)}"
    paid = f", costs you {measure.show_money(each.paid)}" if each.paid else ""
    return f"{measure.show_number(each.hours, None)} h {at}{paid}"


def _money(amount: Decimal) -> str:
    return measure.show_money(amount, sign=False)
