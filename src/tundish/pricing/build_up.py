"""How the price of a stage is built up: materials, mark-up, labour, overhead, contingency, rounding."""

from __future__ import annotations

import math
from collections import defaultdict
from decimal import Decimal

from tundish.field import must_read
from tundish.figure import Figure, number, round_up, total
from tundish.pricing import margin
from tundish.pricing.labour import crewed
from tundish.pricing.pennies import nearest, penny, shared
from tundish.pricing.price import StagePrice
from tundish.pricing.terms import NOT_REGISTERED, STEPS, Terms
from tundish.procurement.purchase import Buying, Purchase
from tundish.rules.rule import STAGE_NAMES, STAGES, Need, Stage

SUPPLIERS_VAT = Decimal(20)
"""Per cent: the standard rate, which a supplier charges whether the trader is registered or not."""


def stages(hours: tuple[Need, ...], buying: Buying, terms: Terms, harder: tuple[Figure, ...] = ()) -> tuple[StagePrice, ...]:
    """Every stage that takes materials or hours, in order; `harder`: per cents by which the work is, besides what the terms say."""
    costs = _stage_costs(buying, terms)
    needs = {stage: tuple(need for need in hours if need.stage == stage) for stage in STAGES}
    factor = _factor(terms, harder)
    made = (_stage(stage, costs[stage], needs[stage], terms, factor) for stage in STAGES)
    return tuple(each for each in made if each.materials or each.hours.high > 0)


def paid(amount: Decimal, terms: Terms) -> Decimal:
    """What a bill without VAT costs the trader in the end: with its VAT where that cannot be reclaimed.

    Who is not registered cannot reclaim what suppliers charge (VAT Act 1994, sections 24 to 26, from memory).
    """
    return penny(amount * (100 + SUPPLIERS_VAT) / 100) if terms.vat == NOT_REGISTERED else amount


def used(purchase: Purchase) -> Decimal:
    """What the job uses of what is bought for it, at its price."""
    bought = sum(pick.offer.holds * pick.packs for pick in purchase.picks)
    if bought <= 0:
        return purchase.cost
    return penny(purchase.bought * Decimal(str(min(1.0, purchase.to_buy.value / bought)))) + purchase.rack_cost


def cost_of(purchase: Purchase, terms: Terms) -> Decimal:
    """What a purchase costs the job on these terms: all that is bought, or what is used of it."""
    return paid(used(purchase) if terms.charged_at == "used cost" else purchase.cost, terms)


def part(terms: Terms, name: str) -> Decimal:
    """A per cent of the terms as a part of one."""
    return Decimal(str(must_read(terms, name).value)) / 100


def _stage_costs(buying: Buying, terms: Terms) -> dict[Stage, Decimal]:
    costs: dict[Stage, Decimal] = defaultdict(Decimal)
    for purchase in buying.purchases:
        for stage, share in _split(purchase, cost_of(purchase, terms)):
            costs[stage] += share
    return costs


def _split(purchase: Purchase, cost: Decimal) -> tuple[tuple[Stage, Decimal], ...]:
    """What each stage bears of a purchase, in the order of the work: no order of the needs changes who takes what rounding leaves."""
    amounts: dict[Stage, list[float]] = defaultdict(list)
    for need in purchase.line.needs:
        amounts[need.stage].append(need.amount.value)
    stages = tuple(stage for stage in STAGES if stage in amounts)
    return tuple(zip(stages, shared(cost, tuple(math.fsum(amounts[stage]) for stage in stages)), strict=True))


def _factor(terms: Terms, harder: tuple[Figure, ...]) -> Figure:
    """By how much the work is harder than the norms."""
    parts = [(each / number(100, "%")).named(each.label, each.note) for each in (must_read(terms, "difficulty", "terms"), *harder)]
    return total([number(1, "", "as the norms"), *parts], "Harder than usual")


def _stage_hours(stage: Stage, needs: tuple[Need, ...], factor: Figure) -> Figure:
    plain = total([need.amount for need in needs], f"{STAGE_NAMES[stage]}, by norms", "h")
    return round_up(plain * factor, 0.5, f"{STAGE_NAMES[stage]}, hours")


def _stage(stage: Stage, cost: Decimal, needs: tuple[Need, ...], terms: Terms, factor: Figure) -> StagePrice:
    raised = part(terms, "mark_up")
    if terms.mark_up_as == "margin of price":
        raised = margin.mark_up_of(min(raised, margin.MOST / 100))
    hours = _stage_hours(stage, needs, factor)
    crew = crewed(stage, needs, hours.value, terms)
    time = Decimal(str(sum(each.hours for each in crew.people)))
    mark_up, labour = penny(cost * raised), sum((each.amount for each in crew.people), Decimal(0))
    overhead = penny((cost + labour) * part(terms, "overhead") + time * (terms.overhead_hour or Decimal(0)))
    contingency = penny((cost + mark_up + labour + overhead) * part(terms, "contingency"))
    whole = cost + mark_up + labour + overhead + contingency
    price = nearest(whole, STEPS[terms.round_to])
    return StagePrice(
        stage,
        STAGE_NAMES[stage],
        cost,
        mark_up,
        hours,
        labour,
        contingency,
        price,
        overhead,
        price - whole,
        crew.people,
        crew.lasts,
        crew.works,
    )
