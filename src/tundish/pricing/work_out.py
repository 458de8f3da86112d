"""The price of a job, stage by stage: bought cost, mark-up, hours at the rate, contingency, carriage, VAT, payments.

Amounts are rounded half up to the penny where they are made, so that every column adds up as it is printed. Who is not
registered for VAT cannot reclaim what suppliers charge: it is then part of the cost (VAT Act 1994, sections 24 to 26, from memory).
"""

from __future__ import annotations

import math
from collections import defaultdict
from decimal import ROUND_HALF_UP, Decimal

from tundish import measure
from tundish.field import Problem, must_read
from tundish.figure import Figure, number, round_up, total
from tundish.pricing.price import Payment, Price, StagePrice
from tundish.pricing.terms import Terms
from tundish.procurement.purchase import Buying, Purchase
from tundish.rules.rule import STAGE_NAMES, STAGES, Need, Stage

PENNY = Decimal("0.01")
VAT_RATES = {"registered, 20 %": Decimal(20), "not registered": Decimal(0)}
SUPPLIERS_VAT = Decimal(20)
"""Per cent: the standard rate, which a supplier charges whether the trader is registered or not."""
CURING_DAYS = 1


def price(hours: tuple[Need, ...], buying: Buying, terms: Terms) -> Price:
    """Price the hours and the buying on the terms; what has no price is named, never nothing."""
    costs = _stage_costs(buying, terms)
    by_stage = {stage: _stage_hours(stage, hours, terms) for stage in STAGES}
    stages = tuple(_stage(stage, costs[stage], by_stage[stage], terms) for stage in STAGES if _wanted(costs[stage], by_stage[stage]))
    carriage = sum((paid(order.carriage, terms) for order in buying.orders), Decimal(0))
    before = sum((each.price for each in stages), carriage)
    rate = VAT_RATES[terms.vat]
    vat = penny(before * rate / 100)
    materials = sum((each.materials for each in stages), Decimal(0))
    all_hours = total([each.hours for each in stages], "Hours on site", "h")
    kept = before - materials - carriage
    return Price(
        stages, carriage, before, rate, vat, before + vat, _payments(before + vat, terms),
        tuple(each.line.item.name for each in buying.purchases if not each.priced), terms.labour_rate is not None,
        materials, all_hours, kept, penny(kept / Decimal(str(all_hours.value))) if all_hours.value else None,
        _days(all_hours, stages, terms),
    )  # fmt: skip


def problems(terms: Terms) -> tuple[Problem, ...]:
    """What is wrong with the terms, each with the path of its input in a job."""
    deposit, boarded = (must_read(terms, name).value for name in ("deposit", "boarded"))
    left = 100 - deposit
    if round(boarded - left, 6) <= 0:
        return ()
    said = f"with the {measure.show_percent(deposit)} at acceptance this is more than the whole: {measure.show_percent(left)} is asked for"
    return (Problem("terms.boarded", said),)


def penny(amount: Decimal) -> Decimal:
    """Money rounded half up to the penny."""
    return amount.quantize(PENNY, ROUND_HALF_UP)


def paid(amount: Decimal, terms: Terms) -> Decimal:
    """What a bill without VAT costs the trader in the end: with its VAT where that cannot be reclaimed."""
    return amount if VAT_RATES[terms.vat] else penny(amount * (100 + SUPPLIERS_VAT) / 100)


def shared(amount: Decimal, parts: tuple[float, ...]) -> tuple[Decimal, ...]:
    """An amount split in proportion, to the penny; the last takes what rounding leaves, so that the parts add up."""
    whole = math.fsum(parts)
    if whole <= 0:
        return (*(Decimal(0) for _ in parts[1:]), amount)
    given = [penny(amount * Decimal(str(part)) / Decimal(str(whole))) for part in parts[:-1]]
    return (*given, amount - sum(given, Decimal(0)))


def _stage_costs(buying: Buying, terms: Terms) -> dict[Stage, Decimal]:
    costs: dict[Stage, Decimal] = defaultdict(Decimal)
    for purchase in buying.purchases:
        for stage, part in _split(purchase, paid(purchase.cost, terms)):
            costs[stage] += part
    return costs


def _split(purchase: Purchase, cost: Decimal) -> tuple[tuple[Stage, Decimal], ...]:
    amounts: dict[Stage, float] = defaultdict(float)
    for need in purchase.line.needs:
        amounts[need.stage] += need.amount.value
    return tuple(zip(amounts, shared(cost, tuple(amounts.values())), strict=True))


def _stage_hours(stage: Stage, hours: tuple[Need, ...], terms: Terms) -> Figure:
    plain = total([need.amount for need in hours if need.stage == stage], f"{STAGE_NAMES[stage]}, by norms", "h")
    harder = must_read(terms, "difficulty", "terms")
    factor = (number(1, "", "as the norms") + _per_one(harder)).named("Harder than usual")
    return round_up(plain * factor, 0.5, f"{STAGE_NAMES[stage]}, hours")


def _stage(stage: Stage, cost: Decimal, hours: Figure, terms: Terms) -> StagePrice:
    mark_up = penny(cost * _percent(terms, "mark_up"))
    labour = penny(Decimal(str(hours.value)) * (terms.labour_rate or Decimal(0)))
    contingency = penny((cost + mark_up + labour) * _percent(terms, "contingency"))
    whole = cost + mark_up + labour + contingency
    return StagePrice(stage, STAGE_NAMES[stage], cost, mark_up, hours, labour, contingency, whole)


def _wanted(cost: Decimal, hours: Figure) -> bool:
    return bool(cost) or hours.high > 0


def _payments(whole: Decimal, terms: Terms) -> tuple[Payment, ...]:
    asked: list[Payment] = []
    left, left_percent = whole, 100.0
    for when, name in (("With your acceptance", "deposit"), ("When the wall is boarded", "boarded")):
        percent = float(must_read(terms, name).value)
        # More than the whole is never asked for: what is over is left out, and said by `problems`.
        amount = min(penny(whole * _percent(terms, name)), left)
        asked.append(Payment(when, min(percent, left_percent), amount))
        left, left_percent = left - amount, max(left_percent - percent, 0.0)
    asked.append(Payment("When it is finished and shown", left_percent, left))
    return tuple(each for each in asked if each.amount)


def _days(hours: Figure, stages: tuple[StagePrice, ...], terms: Terms) -> int:
    cures = any(each.stage == "boarding" for each in stages)
    return math.ceil(hours.value / must_read(terms, "hours_a_day").value) + (CURING_DAYS if cures else 0)


def _percent(terms: Terms, name: str) -> Decimal:
    return Decimal(str(must_read(terms, name).value)) / 100


def _per_one(percent: Figure) -> Figure:
    return (percent / number(100, "%")).named(percent.label)
