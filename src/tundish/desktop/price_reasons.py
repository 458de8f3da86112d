"""What Where from shows for the price and for a stage of it."""

from __future__ import annotations

from decimal import Decimal

from tundish import measure
from tundish.desktop.receipt import ReceiptLine, Section, WhereFromView
from tundish.estimate import Estimate
from tundish.pricing.price import StagePrice, Visit, Worked


def price_view(estimate: Estimate) -> WhereFromView:
    """The price, from its stages down to what the client pays."""
    price = estimate.price
    rows = [ReceiptLine("worked out", each.name, _money(each.price), link=f"stage:{each.stage}") for each in price.stages]
    for each in price.beside:
        rows += (
            [ReceiptLine("worked out", _visit(one), _money(one.amount), one.why, link=f"visit:{one.number}") for one in price.visits]
            if each.kind == "visits"
            else [ReceiptLine("own rate", each.name, _money(each.amount))]
        )
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


def visit_view(number: str, estimate: Estimate) -> WhereFromView | None:
    """A visit: why there is one, what it comes to, and what is charged for it."""
    visit = next((each for each in estimate.price.visits if str(each.number) == number), None)
    if visit is None:
        return None
    terms = estimate.job.terms
    each_day = [f"{measure.show_money(rate)} {what}" for what, rate in (("travel", terms.travel), ("parking", terms.parking)) if rate]
    journeys = f"{visit.days} {'day' if visit.days == 1 else 'days'}" + (f" at {' and '.join(each_day)}" if each_day else "; no rate typed")
    hours = f"{measure.show_number(visit.again, None)} h, Rates and rules, Visits"
    first = "the first setting up is in the norm of covering up, the last clearing up in that of making good"
    rows = [
        ReceiptLine("own rate", "Journeys and parking", _money(visit.journeys), journeys),
        ReceiptLine("rule", "Set up and clear up again", _money(visit.labour), hours if visit.number > 1 else first),
    ]
    rows += [ReceiptLine("own rate", "Overhead", _money(visit.overhead))] if visit.overhead else []
    least = f"with the labour of its days it is at least {measure.show_money(terms.visit_least or Decimal(0))}"
    rows += [ReceiptLine("own rate", "To the least for a visit", _money(visit.to_least), least)] if visit.to_least else []
    rows.append(ReceiptLine("worked out", "It comes to", _money(visit.worked_out), is_subtotal=True))
    rows += [ReceiptLine("typed", "Charged instead", _money(visit.amount), visit.by_hand)] if visit.by_hand else []
    note = "Days on end that somebody comes are a visit; a wait, or days of others who come by own means, part one visit from the next."
    return WhereFromView(_visit(visit), _money(visit.amount), "£", under_title=visit.why, lines=tuple(rows), note=note)


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


def _visit(visit: Visit) -> str:
    return f"Visit {visit.number}"


def _hours(each: Worked) -> str:
    at = "no rate yet" if each.rate is None else f"at {measure.show_money(each.rate)}"
    paid = f", costs you {measure.show_money(each.paid)}" if each.paid else ""
    return f"{measure.show_number(each.hours, None)} h {at}{paid}"


def _money(amount: Decimal) -> str:
    return measure.show_money(amount, sign=False)
