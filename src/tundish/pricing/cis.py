"""The Construction Industry Scheme: what a contractor keeps back from a subcontractor and pays to HMRC."""

from __future__ import annotations

from collections.abc import Mapping
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


def deduction(net: Decimal, materials: Decimal, status: str) -> Decimal:
    """What is kept back: the rate on the payment without VAT, less what the materials cost the subcontractor without VAT.

    Mark-up on materials is not deductible from the base, hired plant is (HMRC manuals COG909190, COG909250, CISR13070).
    """
    return penny(max(net - materials, Decimal(0)) * RATES[status] / 100)
