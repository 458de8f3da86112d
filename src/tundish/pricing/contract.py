"""What the client is to pay in all, and in which parts: the price as it is worked out, or, once one was accepted, as agreed and varied."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from tundish.pricing.cis import base_of, of_base
from tundish.pricing.instalment import Rates, gross, rates_of
from tundish.pricing.price import Price
from tundish.pricing.terms import REVERSE_CHARGE, Terms
from tundish.pricing.variation import Agreed, Variation, rows_agreed, sums_of

Shares = tuple[tuple[str, Decimal], ...]
SINCE: Final = "Variations agreed since the last bill"


@dataclass(frozen=True, slots=True)
class Contract:
    """Nets by rate, the payments in per cent, and what of the nets a contractor reckons on (CIS). `agreed`: accepted, and held to."""

    rates: Rates
    shares: Shares
    base: Decimal
    cis: str
    reverse_charge: bool
    agreed: bool

    @property
    def net(self) -> Decimal:
        """What is to be paid before VAT."""
        return sum((net for _, net in self.rates), Decimal(0))

    @property
    def kept_back(self) -> Decimal:
        """What a contractor keeps back of it."""
        return of_base(self.base, self.cis)

    @property
    def total(self) -> Decimal:
        """What is to be paid with VAT, before anything is kept back."""
        return gross(self.rates, [net for _, net in self.rates], charged=not self.reverse_charge)


def contract_of(price: Price, terms: Terms, agreed: Agreed, variations: Sequence[Variation] = ()) -> Contract:
    """The contract as it stands; before anything is agreed it is the price as it is worked out."""
    if not agreed.on:
        shares = tuple((each.when, Decimal(str(each.percent))) for each in price.payments)
        return Contract(rates_of(price.vat_lines, price.before_vat), shares, price.cis.base, *_flags(terms), agreed=False)
    sums, held = sums_of(rows_agreed(agreed, variations), agreed.basis.terms), agreed.basis.terms
    varied = (base_of(each.base, each.kept_back, held.cis) for each in variations if each.accepted)
    base = sum(varied, base_of(agreed.base, agreed.kept_back, held.cis))
    shares = tuple((each.when, each.percent or Decimal(0)) for each in agreed.shares)
    return Contract(rates_of(sums.vat_lines, sums.net), shares, base, *_flags(held), agreed=True)


def _flags(terms: Terms) -> tuple[str, bool]:
    return terms.cis, terms.vat == REVERSE_CHARGE
