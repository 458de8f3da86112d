"""What the client is to pay in all, and in which parts: the price as it is worked out, or, once one was accepted, as agreed and varied."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from tundish.pricing.cis import base_of, of_base
from tundish.pricing.instalment import Part, Row, gross, parts_of, rows_of_price
from tundish.pricing.price import Price
from tundish.pricing.terms import Terms
from tundish.pricing.variation import Agreed, Variation, rows_agreed

Shares = tuple[tuple[str, Decimal], ...]
SINCE: Final = "Variations agreed since the last bill"


@dataclass(frozen=True, slots=True)
class Contract:
    """What is billed, row by row, the payments in per cent, and what of it CIS is reckoned on. `agreed`: accepted, and held to."""

    rows: tuple[Row, ...]
    shares: Shares
    base: Decimal
    terms: Terms
    agreed: bool

    @property
    def parts(self) -> tuple[Part, ...]:
        """The rows by their rate of VAT."""
        return parts_of(self.rows)

    @property
    def net(self) -> Decimal:
        """What is to be paid before VAT."""
        return sum((net for _, _, net in self.rows), Decimal(0))

    @property
    def kept_back(self) -> Decimal:
        """What a contractor keeps back of it."""
        return of_base(self.base, self.terms.cis)

    @property
    def total(self) -> Decimal:
        """What is to be paid with VAT, before anything is kept back."""
        return gross(((percent, net) for _, percent, net in self.rows), self.terms)


def contract_of(price: Price, terms: Terms, agreed: Agreed, variations: Sequence[Variation] = ()) -> Contract:
    """The contract as it stands; before anything is agreed it is the price as it is worked out."""
    if not agreed.on:
        shares = tuple((each.when, Decimal(str(each.percent))) for each in price.payments)
        return Contract(tuple(rows_of_price(price.stages, price.beside, terms)), shares, price.cis.base, terms, agreed=False)
    held = agreed.basis.terms
    rows = tuple((each.what, each.percent, each.net or Decimal(0)) for each in rows_agreed(agreed, variations))
    varied = (base_of(each.base, each.kept_back, held.cis) for each in variations if each.accepted)
    base = sum(varied, base_of(agreed.base, agreed.kept_back, held.cis))
    shares = tuple((each.when, each.percent or Decimal(0)) for each in agreed.shares)
    return Contract(rows, shares, base, held, agreed=True)
