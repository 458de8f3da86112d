"""What a business owes that pays late: Late Payment of Commercial Debts (Interest) Act 1998, as gov.uk gives it."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from tundish.pricing.pennies import penny

OVER_BASE: Final = Decimal(8)
"""Per cent a year over the Bank of England's base rate."""
USUAL_DAYS: Final = 30
"""A bill is due so long after it where nothing else was agreed."""


def interest(debt: Decimal, base_rate: Decimal, days: int) -> Decimal:
    """Interest for so many days; as gov.uk does it, the interest of a day is rounded to the penny first."""
    return a_day(debt, base_rate) * days


def a_day(debt: Decimal, base_rate: Decimal) -> Decimal:
    """Interest of one day, to the penny."""
    return penny(debt * (OVER_BASE + base_rate) / 100 / 365)


def fixed_sum(debt: Decimal) -> Decimal:
    """The sum that may be asked once for each late bill, besides interest."""
    return next(asked for below, asked in _FIXED if debt < below)


_FIXED: Final = ((Decimal(1000), Decimal(40)), (Decimal(10_000), Decimal(70)), (Decimal("Infinity"), Decimal(100)))
