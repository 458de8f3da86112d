"""What Pricing says in words: margin and mark-up, who works, a lower rate of VAT, options, what is kept; and where the money goes."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from tundish import measure
from tundish.desktop.money_bar import LESS
from tundish.documents.programme import needs_two
from tundish.estimate import Estimate, Job, OptionPrice
from tundish.field import Problem, describe, must_read
from tundish.pricing.cis import NONE
from tundish.pricing.margin import MOST, margin_of, mark_up_of
from tundish.pricing.price import Price, Visit
from tundish.pricing.terms import Terms
from tundish.pricing.validity import validity
from tundish.pricing.vat import REASONS

MOST_WARNED: Final = 2
"""Warnings at the foot of the page; where the price stays in sight there is no room for more."""


def margin_words(terms: Terms) -> str:
    """Mark-up and the margin it comes to, or the other way round, since people mix them up."""
    said = must_read(terms, "mark_up").value
    if terms.mark_up_as == "margin of price":
        said = min(said, float(MOST))
        other = float(mark_up_of(Decimal(str(said)) / 100)) * 100
        return f"{measure.show_percent(said)} margin of price is {measure.show_percent(round(other, 1))} mark-up on cost."
    part = Decimal(str(said)) / 100
    other = float(margin_of(part)) * 100
    return f"{measure.show_percent(said)} mark-up on cost is {measure.show_percent(round(other, 1))} margin of price."


def who_words(estimate: Estimate) -> str:
    """Who works how long on the job and at what rate; and that two are wanted to lift where one works alone."""
    hours: dict[tuple[str, Decimal | None], float] = {}
    for each in (one for stage in estimate.price.stages for one in stage.people):
        hours[each.name, each.rate] = hours.get((each.name, each.rate), 0.0) + each.hours
    said = [
        f"{name} {measure.show_hours(time)} h at {'no rate yet' if rate is None else measure.show_money(rate)}"
        for (name, rate), time in hours.items()
    ]
    whose = "Your usual people: " if estimate.book.crew.people and not estimate.job.terms.people else ""
    lift = " Some of it takes two to lift: nobody else is priced." if len(hours) == 1 and needs_two(estimate) else ""
    return f"{whose}{'; '.join(said)}.{lift}" if said else ""


def visit_words(visit: Visit) -> str:
    """A visit as a row of the price: its number, its days, and whether it is charged by hand."""
    return f"Visit {visit.number}: {_days(visit)}{', by hand' if visit.by_hand else ''}"


def visits_words(price: Price) -> str:
    """Every visit with its days and why there is one."""
    return " ".join(f"Visit {each.number}, {each.why}: {_days(each)}." for each in price.visits)


def vat_words(terms: Terms) -> str:
    """The condition of a lower rate and what to keep; nothing at the standard rate."""
    reason = REASONS[terms.vat_reason]
    return f"{reason.condition} Keep: {reason.evidence} HMRC's own guidance decides." if reason.condition else ""


def cis_words(price: Price, terms: Terms) -> str:
    """What a contractor reckons on, and what of the price is left out of that; nothing for another client."""
    if terms.cis == NONE:
        return ""
    cis = price.cis
    return (
        f"The contractor reckons on {measure.show_money(cis.base)}: {measure.show_money(price.before_vat)} before VAT, less"
        f" {measure.show_money(cis.materials)} of materials with their delivery and {measure.show_money(cis.hired)} of plant hired in, at"
        " cost. Mark-up, travel, waste and plant of your own are not left out."
    )


def option_words(option: OptionPrice, price: Price) -> str:
    """What an option costs beside the job, what it keeps, what it changes, and what it fails."""
    more = option.price.total - price.total
    said = f"{measure.show_money(option.price.total)}, {measure.show_money(abs(more))} {'more' if more >= 0 else 'less'}."
    fails = f" Fails: {', '.join(option.fails)}." if option.fails else ""
    return f"{said} You keep {measure.show_money(option.price.kept)}. Changes: {', '.join(option.changes)}.{fails}"


def validity_words(estimate: Estimate) -> str:
    """How long the quote says it is good for, and what of the prices allows or shortens it."""
    found, terms = validity(estimate.buying, estimate.job.terms, estimate.book), estimate.job.terms
    said = f"The quote says {found.days} {'day' if found.days == 1 else 'days'}" + (
        f", until {measure.show_date(found.until)}." if found.until else "."
    )
    if found.first is None or found.allowed is None:
        return said
    until = f"Its prices hold until {measure.show_date(found.first.ends)} ({found.first.name}, of {measure.show_date(found.first.of)})."
    cut = " Shortened to what they allow." if terms.valid_days is None and found.days < must_read(terms, "valid_days").value else ""
    return f"{said} {until}{cut}"


def warnings(estimate: Estimate) -> str:
    """What is wrong with what the price rests on, for the foot of the page, by the name of its input; of many the first ones."""
    wrong = [_warned(each) for each in estimate.problems if each.path.startswith("terms.")]
    more = f" And {len(wrong) - MOST_WARNED} more." if len(wrong) > MOST_WARNED else ""
    return " ".join(wrong[:MOST_WARNED]) + more


def kept_words(price: Price) -> str:
    """What the trader keeps: the sum, by hour and day, as a part of the price and of its cost; break-even; the least price."""
    if not price.labour_priced:
        return "Not all labour is in the price: type the rates to see what you keep."
    each_hour = f", {measure.show_money(price.kept_an_hour)} an hour" if price.kept_an_hour is not None else ""
    there = "1 day" if price.on_site == 1 else f"{price.on_site} days"
    each_day = f", {measure.show_money(price.kept / price.on_site)} a day over {there} on site" if price.on_site else ""
    even = f" Nothing is kept at {measure.show_money(price.break_even)} before VAT."
    least = f" To keep what you want, the least price is {measure.show_money(price.least)} before VAT." if price.least is not None else ""
    return f"You keep {measure.show_money(price.kept)}{each_hour}{each_day}.{_as_parts(price)}{even}{least}"


def where_it_goes(price: Price) -> tuple[tuple[str, Decimal], ...]:
    """What the client pays as its parts, which add up to it unless nothing is kept; a discount is taken off the mark-up first."""
    again = sum((each.amount - each.costs for each in price.visits), Decimal(0))
    labour = sum((each.labour - each.paid for each in price.stages), again)
    paid = sum((each.paid for each in price.stages), sum((each.paid for each in price.visits), Decimal(0)))
    mark_up = sum((each.mark_up for each in price.stages), Decimal(0))
    contingency = sum((each.contingency + each.rounding for each in price.stages), Decimal(0))
    overhead = sum((each.overhead for each in price.stages), sum((each.overhead for each in price.visits), Decimal(0)))
    discount = -sum((each.amount for each in price.beside if each.kind == "discount"), Decimal(0))
    journeys = sum((each.journeys for each in price.visits), Decimal(0))
    beside = sum((each.amount for each in price.beside if each.kind not in {"discount", "visits"}), journeys)
    yours = []
    for name, amount in (("Mark-up", mark_up), ("Contingency", contingency), ("Your labour" if paid else "Labour", labour)):
        less = min(discount, max(amount, Decimal(0)))
        discount -= less
        yours.append((name + LESS if less else name, amount - less))
    parts = (
        ("Materials", price.materials_cost),
        ("Delivery and costs", beside),
        ("Paid to others", paid),
        ("Overhead", overhead),
        *yours,
        ("VAT", price.vat),
    )
    return tuple(part for part in parts if part[1] > 0)


def _days(visit: Visit) -> str:
    return f"{visit.days} {'day' if visit.days == 1 else 'days'}"


def _warned(problem: Problem) -> str:
    words = problem.text.rstrip(".")
    return f"{describe(Job, problem.path).label}: {words}."


def _as_parts(price: Price) -> str:
    """What is kept as a margin of the price and as a mark-up on all it costs: never one for the other."""
    if price.before_vat <= 0 or price.break_even <= 0:
        return ""
    margin, mark_up = (measure.show_percent(round(float(price.kept / base) * 100, 1)) for base in (price.before_vat, price.break_even))
    return f" That is {margin} of the price (margin), {mark_up} on what it costs you (mark-up)."
