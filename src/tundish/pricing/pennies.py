"""Money to the penny. Amounts are rounded where they are made, so that every column adds up as it is printed."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Final

PENNY: Final = Decimal("0.01")


def penny(amount: Decimal) -> Decimal:
    """Money rounded half up to the penny (HMRC manual VATREC12030)."""
    return amount.quantize(PENNY, ROUND_HALF_UP)


def nearest(amount: Decimal, step: Decimal) -> Decimal:
    """Money rounded half up to a step such as a pound or five."""
    return penny((amount / step).quantize(Decimal(1), ROUND_HALF_UP) * step)


def whole_step(*percents: Decimal | None) -> Decimal:
    """The least amount of which all these per cents are whole pennies, and of its multiples: 5p for 20 %, 20p for 5 %, else a penny."""
    return PENNY * math.lcm(*((Fraction(each or 0) / 100).denominator for each in percents))


def shared(amount: Decimal, parts: tuple[float, ...]) -> tuple[Decimal, ...]:
    """An amount split in proportion, to the penny; the last takes what rounding leaves, so that the parts add up."""
    whole = math.fsum(parts)
    if whole <= 0:
        return (*(Decimal(0) for _ in parts[1:]), amount)
    given = [penny(amount * Decimal(str(part)) / Decimal(str(whole))) for part in parts[:-1]]
    return (*given, amount - sum(given, Decimal(0)))
