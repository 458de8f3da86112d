"""What the client is to pay in all, and in which parts: the price as it is worked out, or, once one was accepted, as agreed and varied."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from tundish.pricing import cis
from tundish.pricing.instalment import Rates, gross, rates_of
from tundish.pricing.price import Price
from tundish.pricing.terms import REVERSE_CHARGE, Terms
from tundish.pricing.variation import Agreed, Variation, rows_agreed, sums_of

Shares = tuple[tuple[str, Decimal], ...]
SINCE: Final = "Variations agreed since the last bill"


@dataclass(frozen=True, slots=True)
class Contract:
    """Nets by rate, what a contractor keeps back of them, and the payments in per cent. `agreed`: accepted, and held to."""

    rates: Rates
    shares: Shares
    kept_back: Decimal
    reverse_charge: bool
    under_cis: bool
    agreed: bool

    @property
    def total(self) -> Decimal:
        """What is to be paid with VAT, before anything is kept back."""
        return gross(self.rates, [net for _, net in self.rates], charged=not self.reverse_charge)


def contract_of(price: Price, terms: Terms, agreed: Agreed, variations: Sequence[Variation] = ()) -> Contract:
    """The contract as it stands; before anything is agreed it is the price as it is worked out."""
    if not agreed.on:
        shares = tuple((each.when, Decimal(str(each.percent))) for each in price.payments)
        return Contract(rates_of(price.vat_lines, price.before_vat), shares, price.kept_back, *_flags(terms), agreed=False)
    sums = sums_of(rows_agreed(agreed, variations), agreed.basis.terms)
    kept = sum((each.kept_back or Decimal(0) for each in variations if each.accepted), agreed.kept_back or Decimal(0))
    shares = tuple((each.when, each.percent or Decimal(0)) for each in agreed.shares)
    return Contract(rates_of(sums.vat_lines, sums.net), shares, kept, *_flags(agreed.basis.terms), agreed=True)


def _flags(terms: Terms) -> tuple[bool, bool]:
    return terms.vat == REVERSE_CHARGE, terms.cis != cis.NONE
