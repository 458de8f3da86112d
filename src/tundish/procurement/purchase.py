"""Where each line comes from: kits, the rack, stock, and what has to be bought from whom."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from tundish.catalogue.item import Item, Offer, Supplier
from tundish.figure import Figure
from tundish.record import record
from tundish.takeoff.line import Line

_GRACE: Final = 6


@dataclass(frozen=True, slots=True)
class Pick:
    """So many packs (or bars, or sheets) of one offer."""

    offer: Offer
    packs: int

    @property
    def amount(self) -> float:
        """What the packs hold together, in the item's unit."""
        return self.packs * self.offer.pack

    @property
    def cost(self) -> Decimal:
        """What it costs, without VAT."""
        return self.offer.each(self.packs) * self.packs


@dataclass(frozen=True, slots=True)
class Want:
    """So much of one thing and who offers it. `by_piece`: bars or sheets of one size, counted whichever pack they come in."""

    amount: float
    offers: tuple[Offer, ...]
    by_piece: bool = False

    def holds(self, offer: Offer) -> float:
        """What one pack of an offer gives."""
        return 1.0 if self.by_piece else offer.pack

    def packs(self, offer: Offer) -> int:
        """How many packs of one offer alone would meet it."""
        return math.ceil(round(self.amount / self.holds(offer), _GRACE))


@record
class Purchase:
    """One line met: from kits, rack, stock, and bought; amounts in the item's unit. `priced`: all that is bought has a price.

    `rack_cost` is what the rack's pieces are worth, where the trader has a job pay for them; `wants` is what the picks are to meet.
    """

    line: Line
    from_kits: Figure
    from_rack: Figure
    from_stock: Figure
    picks: tuple[Pick, ...]
    priced: bool = True
    rack_cost: Decimal = Decimal(0)
    wants: tuple[Want, ...] = ()

    @property
    def to_buy(self) -> Figure:
        """How much of it is to be bought; nothing where the client supplies it."""
        if self.line.own:
            return self.from_stock
        return (self.line.amount - self.from_kits - self.from_rack - self.from_stock).named(f"{self.line.item.name}, to buy")

    @property
    def bought(self) -> Decimal:
        """What buying it costs, without VAT."""
        return sum((pick.cost for pick in self.picks), Decimal(0))

    @property
    def cost(self) -> Decimal:
        """What it costs the job, without VAT: what is bought, and what the rack's pieces are worth."""
        return self.bought + self.rack_cost


@dataclass(frozen=True, slots=True)
class Order:
    """What one supplier is asked for."""

    supplier: Supplier
    rows: tuple[tuple[Purchase, Pick], ...]
    goods: Decimal
    carriage: Decimal


@dataclass(frozen=True, slots=True)
class LeftOver:
    """What a kit or a pack holds and the job does not use."""

    item: Item
    amount: float
    why: str


@dataclass(frozen=True, slots=True)
class Way:
    """One way to buy the whole need: its aim (a supplier's key with "all from one"), what it comes to, and what it could not keep to."""

    aim: str
    supplier: str
    cost: Decimal
    orders: int
    days: int
    elsewhere: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Buying:
    """The whole of procurement: every line met, one order a supplier, what is left over, and why it was bought so.

    `ways` are the other ways that were looked at; there are none in an answer that was wanted at once. `proven`: nothing better.
    """

    purchases: tuple[Purchase, ...]
    orders: tuple[Order, ...]
    left_over: tuple[LeftOver, ...]
    reason: str = ""
    proven: bool = False
    ways: tuple[Way, ...] = ()
