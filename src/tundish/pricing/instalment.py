"""Parts of a price: so much per cent of what falls under each rate of VAT, such that all parts together are the price to the penny."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal

from tundish.pricing import cis
from tundish.pricing.pennies import nearest, whole_step
from tundish.pricing.price import Beside, Payment, StagePrice
from tundish.pricing.terms import NOT_REGISTERED, REVERSE_CHARGE, Terms
from tundish.pricing.vat import REASONS, by_rate


@dataclass(frozen=True, slots=True)
class Part:
    """All of a price that is at one rate of VAT; `percent` is None for who is not registered."""

    percent: Decimal | None
    net: Decimal


Row = tuple[str, Decimal | None, Decimal]
"""A row of a price: its name, its rate of VAT (None for who is not registered), and its net."""


def rows_of_price(stages: Iterable[StagePrice], beside: Iterable[Beside], terms: Terms) -> Iterator[Row]:
    """The rows of a price as its quote has them."""
    named = [(each.name, terms.vat_reason, each.price) for each in stages]
    named += [(each.name, each.vat or terms.vat_reason, each.amount) for each in beside]
    for name, reason, net in named:
        yield name, None if terms.vat == NOT_REGISTERED else REASONS[reason].on(terms.quoted), net


def parts_of(rows: Iterable[Row]) -> tuple[Part, ...]:
    """The rows of a price by their rate, the highest first."""
    nets: dict[Decimal | None, Decimal] = {}
    for _, percent, net in rows:
        nets[percent] = nets.get(percent, Decimal(0)) + net
    return tuple(Part(percent, nets[percent]) for percent in sorted(nets, key=lambda each: -(each or 0)))


def instalment(parts: Sequence[Part], left: Sequence[Decimal], percent: Decimal, status: str) -> tuple[Decimal, ...]:
    """So much per cent of each net, no more than is left of it, at amounts of which VAT and what is kept back (CIS) are whole pennies.

    Both are rounded on each bill and on the whole. With only the last bill to be rounded, those of the bills add up to that of the whole.
    """
    return tuple(
        part_of(each.net, rest, percent, whole_step(each.percent, cis.RATES[status])) for each, rest in zip(parts, left, strict=True)
    )


def part_of(whole: Decimal, left: Decimal, percent: Decimal, step: Decimal) -> Decimal:
    """So much per cent of an amount, in whole steps; no more than is left of it."""
    part = nearest(whole * percent / 100, step)
    return part if abs(part) <= abs(left) else (left / step).quantize(Decimal(1), ROUND_DOWN) * step


def payments(rows: Sequence[Row], shares: Sequence[tuple[str, Decimal]], terms: Terms) -> tuple[Payment, ...]:
    """What is asked for when, each payment as its bill will be; the last takes what is left, and none is of nothing or leaves less."""
    parts, whole = parts_of(rows), gross(((percent, net) for _, percent, net in rows), terms)
    left = tuple(each.net for each in parts)
    asked: list[Payment] = []
    for place, (when, percent) in enumerate(shares, 1):
        rest = whole - sum((each.amount for each in asked), Decimal(0))
        nets = instalment(parts, left, percent, terms.cis)
        amount = gross(((each.percent, net) for each, net in zip(parts, nets, strict=True)), terms)
        if place == len(shares) or amount >= rest:
            asked.append(Payment(when, float(percent), rest))
            break
        asked.append(Payment(when, float(percent), amount))
        left = tuple(one - net for one, net in zip(left, nets, strict=True))
    return tuple(each for each in asked if each.amount)


def gross(lines: Iterable[tuple[Decimal | None, Decimal]], terms: Terms) -> Decimal:
    """Nets of lines with the VAT that is charged on them, rounded as the terms say."""
    held = tuple(lines)
    net = sum((amount for _, amount in held), Decimal(0))
    if terms.vat == REVERSE_CHARGE:
        return net
    rated = [(percent, amount) for percent, amount in held if percent is not None]
    return net + sum((each.vat for each in by_rate(rated, rounding=terms.vat_rounding)), Decimal(0))
