"""The price of a job: its stages, what stands beside them, VAT by rate, payments, and what the trader keeps.

Amounts are rounded half up to the penny where they are made, so that every column adds up as it is printed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Final

from tundish import measure
from tundish.catalogue.trader import Trader
from tundish.field import Problem, must_read
from tundish.figure import Figure, number, total
from tundish.pricing import build_up, cis, margin
from tundish.pricing.build_up import paid, part
from tundish.pricing.cis import Reckoned
from tundish.pricing.instalment import payments, rows_of_price
from tundish.pricing.labour import without_rate
from tundish.pricing.late import A_BUSINESS, FAIR_DAYS, pay_days
from tundish.pricing.pennies import penny
from tundish.pricing.price import Beside, Price, StagePrice, Visit
from tundish.pricing.programme import programme, reach
from tundish.pricing.terms import NOT_REGISTERED, REVERSE_CHARGE, Terms
from tundish.pricing.vat import REASONS, STANDARD, VatLine, by_rate
from tundish.pricing.vat_rounding import ROUNDINGS
from tundish.pricing.visits import NO_TIME, setting_up, visits
from tundish.pricing.waits import Wait
from tundish.procurement.purchase import Buying
from tundish.rules.rule import Need

_KINDS: Final = {"hire": cis.HIRED, "skip": cis.WORK}
"""What is bought and is no materials to CIS, by its kind in the catalogue."""


def price(
    hours: tuple[Need, ...],
    buying: Buying,
    terms: Terms,
    waits: tuple[Wait, ...] = (),
    harder: tuple[Figure, ...] = (),
    again: Figure = NO_TIME,
) -> Price:
    """Price the hours and the buying on the terms; what has no price is named, never nothing.

    `waits`: what dries before work goes on. `harder`: per cents by which the work is, besides what the terms say. `again`: the hours
    that it takes to set up and clear up at each further visit.
    """
    stages = build_up.stages(hours, buying, terms, harder)
    a_day = must_read(terms, "hours_a_day").value
    setting = setting_up(again, terms)
    set_up = {work: each.lasts for work, each in setting.items()}
    days = programme(stages, a_day, terms.start, waits, set_up)
    visited = visits(days, stages, setting, terms)
    all_hours = _all_hours(stages, visited, again)
    beside = tuple(_beside(stages, visited, buying, terms))
    before = sum((each.price for each in stages), sum((each.amount for each in beside), Decimal(0)))
    vat_lines = _vat(stages, beside, terms)
    vat = sum((each.vat for each in vat_lines if each.charged), Decimal(0))
    materials = sum((each.materials for each in stages), Decimal(0))
    lasts = sum(each.lasts for each in stages) + sum(each.again for each in visited)
    costs = materials + sum((each.amount for each in beside if each.kind not in {"discount", "visits"}), Decimal(0))
    costs += sum((each.paid + each.overhead for each in stages), sum((each.costs for each in visited), Decimal(0)))
    kept = before - costs
    return Price(
        stages, beside, before, vat_lines, vat, before + vat, _cis(before, beside, buying, terms),
        payments(tuple(rows_of_price(stages, beside, terms)), _shares(terms), terms),
        tuple(each.line.item.name for each in buying.purchases if not each.priced), _labour_priced(stages, terms),
        materials, all_hours, kept, penny(kept / Decimal(str(lasts))) if lasts else None,
        days, visited, waits, reach(stages, a_day, terms.start, waits, set_up),
        costs, None if terms.keep_a_day is None else costs + terms.keep_a_day * sum(each.days for each in visited),
    )  # fmt: skip


def problems(terms: Terms) -> tuple[Problem, ...]:
    """What is wrong with the terms, each with the path of its input in a job."""
    return tuple(_problems(terms))


def charged_unregistered(terms: Terms, trader: Trader) -> tuple[Problem, ...]:
    """VAT asked for by a trader who has given a name and no VAT number, which has to stand on the bill.

    Only who is registered may charge it: VAT Regulations 1995, regulation 14, from memory.
    """
    if terms.vat == NOT_REGISTERED or trader.vat_number.strip() or not trader.name.strip():
        return ()
    said = f"Settings have no VAT number of yours. Only who is registered may charge VAT: type it there, or choose {NOT_REGISTERED} here"
    return (Problem("terms.vat", said),)


def _problems(terms: Terms) -> Iterator[Problem]:
    deposit, boarded = (must_read(terms, name).value for name in ("deposit", "boarded"))
    left = 100 - deposit
    if round(boarded - left, 6) > 0:
        said = (
            f"with the {measure.show_percent(deposit)} at acceptance this is more than the whole: {measure.show_percent(left)} is asked for"
        )
        yield Problem("terms.boarded", said)
    if terms.mark_up_as == "margin of price" and must_read(terms, "mark_up").value > margin.MOST:
        yield Problem("terms.mark_up", f"a margin of more than {margin.MOST} % of the price cannot be worked with: {margin.MOST} % is used")
    if terms.vat != NOT_REGISTERED and terms.vat_reason != STANDARD and not terms.vat_evidence.strip():
        reason = REASONS[terms.vat_reason]
        yield Problem(
            "terms.vat_evidence", f"{reason.words}: {reason.condition} Keep: {reason.evidence} HMRC decides; say here what you saw"
        )
    if terms.vat != NOT_REGISTERED and ROUNDINGS[terms.vat_rounding].down and terms.client_is != A_BUSINESS:
        yield Problem(
            "terms.vat_rounding",
            "the total may be rounded down on bills between businesses, where what is not charged is not reclaimed either (VATREC12010); "
            "retailers must not: for a private person choose the nearest penny",
        )
    yield from without_rate(terms)
    if terms.client_is == A_BUSINESS and pay_days(terms) > FAIR_DAYS:
        yield Problem("terms.pay_days", f"more than {FAIR_DAYS} days to pay has to be fair to both businesses")
    for place, extra in enumerate(terms.extras):
        if extra.amount is None:
            yield Problem(f"terms.extras.{place}.amount", f"{extra.what or 'This'} has no amount: it is not in the price")


def _labour_priced(stages: tuple[StagePrice, ...], terms: Terms) -> bool:
    """Whether everybody who works has a rate; before there is any work, whether the trader has one."""
    people = [each for stage in stages for each in stage.people]
    return all(each.rate is not None for each in people) if people else terms.labour_rate is not None


def _all_hours(stages: Sequence[StagePrice], visited: Sequence[Visit], again: Figure) -> Figure:
    """The work by norms; setting up again is beside it."""
    further = max(len(visited) - 1, 0)
    more = [(number(further, "", "Further visits") * again).named("Set up and clear up again")] if further else []
    return total([*(each.hours for each in stages), *more], "Hours on site", "h")


def _beside(stages: tuple[StagePrice, ...], visited: Sequence[Visit], buying: Buying, terms: Terms) -> Iterator[Beside]:
    carriage = sum((paid(order.carriage, terms) for order in buying.orders), Decimal(0))
    if carriage:
        yield Beside("carriage", "Delivery", carriage)
    visiting = sum((each.amount for each in visited), Decimal(0))
    if visiting:
        yield Beside("visits", "Visits", visiting)
    ours = {"": sum((each.price for each in stages), carriage + visiting)}
    for extra in terms.extras:
        if extra.amount is not None:
            made = Beside(extra.kind, extra.what or extra.kind.capitalize(), extra.amount, extra.vat if extra.vat in REASONS else "")
            yield made
            if extra.kind == "cost":
                apart = "" if terms.vat == NOT_REGISTERED or made.vat == terms.vat_reason else made.vat
                ours[apart] = ours.get(apart, Decimal(0)) + made.amount
    yield from _discounts(ours, terms)


def _discounts(ours: Mapping[str, Decimal], terms: Terms) -> Iterator[Beside]:
    """A discount off what falls under each reason for a rate of VAT: it lessens the VAT of what it is given on, and of nothing else."""
    less = {reason: penny(amount * part(terms, "discount")) for reason, amount in ours.items()}
    given = {reason: amount for reason, amount in less.items() if amount}
    for reason, amount in given.items():
        on = f", on {REASONS[reason or terms.vat_reason].words.lower()}" if len(given) > 1 else ""
        yield Beside("discount", f"Discount, {measure.show_percent(must_read(terms, 'discount').value)}{on}", -amount, reason)


def _vat(stages: tuple[StagePrice, ...], beside: tuple[Beside, ...], terms: Terms) -> tuple[VatLine, ...]:
    """A line for every rate, at least that of the job; none for who is not registered."""
    if terms.vat == NOT_REGISTERED:
        return ()
    none = (REASONS[terms.vat_reason].on(terms.quoted), Decimal(0))
    rated = [(percent, net) for _, percent, net in rows_of_price(stages, beside, terms) if percent is not None]
    return by_rate((none, *rated), charged=terms.vat != REVERSE_CHARGE, rounding=terms.vat_rounding)


def _cis(before: Decimal, beside: tuple[Beside, ...], buying: Buying, terms: Terms) -> Reckoned:
    """What a contractor keeps back: materials with their carriage and hired plant are left out, at cost; waste and travel are not."""
    left_out = {cis.MATERIALS: Decimal(0), cis.HIRED: Decimal(0), cis.WORK: Decimal(0)}
    for purchase in buying.purchases:
        left_out[_KINDS.get(purchase.line.item.kind, cis.MATERIALS)] += build_up.cost_of(purchase, terms)
    left_out[cis.MATERIALS] += sum((each.amount for each in beside if each.kind == "carriage"), Decimal(0))
    for extra in terms.extras:
        left_out[extra.cis] += extra.amount or Decimal(0)
    return cis.reckoned(before, left_out[cis.MATERIALS], left_out[cis.HIRED], terms.cis)


def _shares(terms: Terms) -> tuple[tuple[str, Decimal], ...]:
    """When how much per cent is to be paid; more than the whole is never asked for: what is over is left out, and said by `problems`."""
    left, shares = Decimal(100), []
    for when, name in (("With your acceptance", "deposit"), ("When the wall is boarded", "boarded")):
        percent = min(Decimal(str(must_read(terms, name).value)), left)
        shares.append((when, percent))
        left -= percent
    return tuple(each for each in (*shares, ("When it is finished and shown", left)) if each[1])
