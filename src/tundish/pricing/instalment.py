"""Parts of a price: so much per cent of what falls under each rate of VAT, such that all parts together are the price to the penny."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from tundish.pricing import cis
from tundish.pricing.pennies import nearest, whole_step
from tundish.pricing.price import Beside, Payment, StagePrice
from tundish.pricing.terms import NOT_REGISTERED, REVERSE_CHARGE, Terms
from tundish.pricing.vat import REASONS, by_rate
from tundish.pricing.vat_rounding import ROUNDINGS


@dataclass(frozen=True, slots=True)
class Part:
    """What is billed as one line: all of a price that is at one rate of VAT, or, where VAT goes by the line, one row of it by its name.

    `percent` is None for who is not registered.
    """

    percent: Decimal | None
    net: Decimal
    row: str = ""

    @property
    def key(self) -> tuple[str, Decimal | None]:
        """What it is known by from bill to bill."""
        return self.row, self.percent


Row = tuple[str, Decimal | None, Decimal]
"""A row of a price: its name, its rate of VAT (None for who is not registered), and its net."""


def rows_of_price(stages: Iterable[StagePrice], beside: Iterable[Beside], terms: Terms) -> Iterator[Row]:
    """The rows of a price as its quote has them."""
    named = [(each.name, terms.vat_reason, each.price) for each in stages]
    named += [(each.name, each.vat or terms.vat_reason, each.amount) for each in beside]
    for name, reason, net in named:
        yield name, None if terms.vat == NOT_REGISTERED else REASONS[reason].on(terms.quoted), net


def parts_of(rows: Iterable[Row], rounding: str) -> tuple[Part, ...]:
    """The rows of a price as what is billed of them; of rows with one name and rate each further one has its number."""
    by_line = ROUNDINGS[rounding].by_line
    nets: dict[tuple[str, Decimal | None], Decimal] = {}
    for name, percent, net in rows:
        row, count = name if by_line else "", 1
        while by_line and (row, percent) in nets:
            row, count = f"{name} {count + 1}", count + 1
        nets[row, percent] = nets.get((row, percent), Decimal(0)) + net
    order = nets if by_line else sorted(nets, key=lambda key: -(key[1] or 0))
    return tuple(Part(percent, nets[row, percent], row) for row, percent in order)


def instalment(parts: Sequence[Part], left: Sequence[Decimal], percent: Decimal, status: str) -> tuple[Decimal, ...]:
    """So much per cent of each net, no more than is left of it, at amounts of which VAT and what is kept back (CIS) are whole pennies.

    Both are rounded on each bill and on the whole. With only the last bill to be rounded, those of the bills add up to that of the whole.
    """
    return tuple(
        part_of(each.net, rest, percent, whole_step(each.percent, cis.RATES[status])) for each, rest in zip(parts, left, strict=True)
    )


def part_of(whole: Decimal, left: Decimal, percent: Decimal, step: Decimal) -> Decimal:
    """So much per cent of an amount, to the step; no more than is left of it."""
    part = nearest(whole * percent / 100, step)
    return left if abs(part) > abs(left) else part


def payments(parts: Sequence[Part], shares: Sequence[tuple[str, Decimal]], terms: Terms) -> tuple[Payment, ...]:
    """What is asked for when, each payment as its bill will be; the last takes what is left, and none is of nothing."""
    left = tuple(each.net for each in parts)
    whole = gross(parts, left, terms)
    asked: list[Payment] = []
    for when, percent in shares[:-1]:
        nets = instalment(parts, left, percent, terms.cis)
        asked.append(Payment(when, float(percent), gross(parts, nets, terms)))
        left = tuple(one - net for one, net in zip(left, nets, strict=True))
    asked += [Payment(when, float(percent), whole - sum((each.amount for each in asked), Decimal(0))) for when, percent in shares[-1:]]
    return tuple(each for each in asked if each.amount)


def gross(parts: Sequence[Part], nets: Sequence[Decimal], terms: Terms) -> Decimal:
    """Nets at the rates of the parts with the VAT that is charged on them."""
    rated = [(each.percent, net) for each, net in zip(parts, nets, strict=True) if each.percent is not None]
    vat = sum((each.vat for each in by_rate(rated, rounding=terms.vat_rounding)), Decimal(0)) if terms.vat != REVERSE_CHARGE else Decimal(0)
    return sum(nets, Decimal(0)) + vat
