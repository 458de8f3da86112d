"""Mark-up is of cost, margin of price: one from the other."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

MOST: Final = Decimal(95)
"""Per cent of the price: a margin over this cannot be worked with."""


def mark_up_of(margin: Decimal) -> Decimal:
    """The mark-up on cost that leaves this margin of the price; both as parts of one, the margin less than the whole."""
    return margin / (1 - margin)


def margin_of(mark_up: Decimal) -> Decimal:
    """The margin of the price that this mark-up on cost leaves; both as parts of one."""
    return mark_up / (1 + mark_up)
