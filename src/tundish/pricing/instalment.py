"""Parts of a price: so much per cent of what falls under each rate of VAT, such that all parts together are the price to the penny."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from tundish.pricing import cis
from tundish.pricing.pennies import nearest, whole_step
from tundish.pricing.price import Payment
from tundish.pricing.terms import REVERSE_CHARGE, Terms
from tundish.pricing.vat import VatLine, by_rate

Rates = tuple[tuple[Decimal | None, Decimal], ...]
"""Net amounts by rate of VAT; the rate is None for who is not registered."""


def rates_of(vat_lines: Sequence[VatLine], before_vat: Decimal) -> Rates:
    """What falls under each rate; all of it under none where there is no VAT."""
    return tuple((each.percent, each.net) for each in vat_lines) or ((None, before_vat),)


def instalment(rates: Rates, left: Sequence[Decimal], percent: Decimal, status: str) -> tuple[Decimal, ...]:
    """So much per cent of each net, no more than is left of it, at amounts of which VAT and what is kept back (CIS) are whole pennies.

    Both are rounded on each bill and on the whole. With only the last bill to be rounded, those of the bills add up to that of the whole.
    """
    return tuple(part_of(net, rest, percent, whole_step(rate, cis.RATES[status])) for (rate, net), rest in zip(rates, left, strict=True))


def part_of(whole: Decimal, left: Decimal, percent: Decimal, step: Decimal) -> Decimal:
    """So much per cent of an amount, to the step; no more than is left of it."""
    part = nearest(whole * percent / 100, step)
    return left if abs(part) > abs(left) else part


def payments(rates: Rates, shares: Sequence[tuple[str, Decimal]], terms: Terms) -> tuple[Payment, ...]:
    """What is asked for when, each payment as its bill will be; the last takes what is left, and none is of nothing."""
    charged = terms.vat != REVERSE_CHARGE
    left, whole = tuple(net for _, net in rates), gross(rates, [net for _, net in rates], charged=charged)
    asked: list[Payment] = []
    for when, percent in shares[:-1]:
        nets = instalment(rates, left, percent, terms.cis)
        asked.append(Payment(when, float(percent), gross(rates, nets, charged=charged)))
        left = tuple(one - net for one, net in zip(left, nets, strict=True))
    asked += [Payment(when, float(percent), whole - sum((each.amount for each in asked), Decimal(0))) for when, percent in shares[-1:]]
    return tuple(each for each in asked if each.amount)


def gross(rates: Rates, nets: Sequence[Decimal], *, charged: bool) -> Decimal:
    """Nets at their rates with the VAT that is charged on them."""
    rated = [(rate, net) for (rate, _), net in zip(rates, nets, strict=True) if rate is not None]
    return sum(nets, Decimal(0)) + (sum((each.vat for each in by_rate(rated)), Decimal(0)) if charged else Decimal(0))
