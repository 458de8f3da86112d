"""The Construction Industry Scheme: what a contractor keeps back from a subcontractor and pays to HMRC."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from tundish.pricing.pennies import penny

NONE: Final = "not for a contractor"
RATES: Final[Mapping[str, Decimal]] = {
    NONE: Decimal(0),
    "CIS, registered, 20 %": Decimal(20),
    "CIS, not registered, 30 %": Decimal(30),
    "CIS, gross status, 0 %": Decimal(0),
}
"""Per cent by status; HMRC booklet CIS 340."""
WORK: Final = "work, or another cost"
MATERIALS: Final = "materials, at what they cost"
HIRED: Final = "hired plant or tools, or fuel for plant"
PARTS: Final = (WORK, MATERIALS, HIRED)
"""What something priced by hand is to CIS. Travel, waste and plant of one's own are reckoned on (CISR15080, CISR15090)."""


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What a contractor reckons on: the payment without VAT less what materials and hired plant cost; and what is kept back of it."""

    materials: Decimal
    hired: Decimal
    base: Decimal
    kept_back: Decimal


def reckoned(net: Decimal, materials: Decimal, hired: Decimal, status: str) -> Reckoned:
    """What is kept back of a payment without VAT; materials and hired plant at what they cost the subcontractor."""
    return Reckoned(materials, hired, max(net - materials - hired, Decimal(0)), deduction(net, materials + hired, status))


def deduction(net: Decimal, left_out: Decimal, status: str) -> Decimal:
    """What is kept back: the rate on the payment without VAT, less what is left out of it, never less than nothing.

    Left out is what materials cost the subcontractor without VAT, and plant hired from others with its fuel (HMRC manuals COG909190,
    COG909250, CISR13070, CISR15090). Mark-up on materials is not.
    """
    return of_base(max(net - left_out, Decimal(0)), status)


def of_base(base: Decimal, status: str) -> Decimal:
    """What is kept back of so much."""
    return penny(base * RATES[status] / 100)


def base_of(base: Decimal | None, kept_back: Decimal | None, status: str) -> Decimal:
    """What a sum that is kept back was reckoned on: as it was recorded, else what the sum is so much per cent of."""
    if base is not None:
        return base
    return (kept_back or Decimal(0)) * 100 / RATES[status] if RATES[status] else Decimal(0)
