"""What a business owes that pays late: Late Payment of Commercial Debts (Interest) Act 1998, as gov.uk gives it."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

OVER_BASE: Final = Decimal(8)
"""Per cent a year over the Bank of England's base rate."""
USUAL_DAYS: Final = 30
"""A bill is due so long after it where nothing else was agreed."""


def fixed_sum(debt: Decimal) -> Decimal:
    """The sum that may be asked once for each late bill, besides interest."""
    return next(asked for below, asked in _FIXED if debt < below)


_FIXED: Final = ((Decimal(1000), Decimal(40)), (Decimal(10_000), Decimal(70)), (Decimal("Infinity"), Decimal(100)))
