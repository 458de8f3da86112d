"""What is still to be ordered: what a job wants bought, against what was ordered for it already; and what is short across jobs."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tundish.procurement.purchase import Buying, Pick, Purchase

Size = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Ordered:
    """One line of a sent order: packs asked for, how many of them are here to stay, and how many will not come."""

    item: str
    size: Size
    pack: float
    packs: int
    here: int
    short: int

    @property
    def counts(self) -> float:
        """What it brings or has brought, in the item's unit; what went back or will not come is not counted."""
        return max(self.packs - self.short, 0) * self.pack


@dataclass(frozen=True, slots=True)
class Still:
    """Packs of an offer still to be ordered; `sent` and `short` are what was sent for it and what of that will not come, in packs."""

    pick: Pick
    wanted: int
    sent: int
    short: int

    @property
    def words(self) -> str:
        """What happened since it was sent, or nothing."""
        if not self.sent:
            return ""
        said = f"sent {self.sent}, now need {self.wanted}" if self.wanted != self.sent else f"sent {self.sent}"
        return f"{said}, {self.short} short" if self.short else said


@dataclass(frozen=True, slots=True)
class Short:
    """What an item lacks across all accepted jobs, in its unit; `below` is what is missing to the reorder level."""

    item: str
    needed: float
    on_hand: float
    on_order: float
    level: float = 0.0
    reorder: float = 0.0

    @property
    def lacking(self) -> float:
        """What has to be bought for the jobs."""
        return max(round(self.needed - self.on_hand - self.on_order, 6), 0.0)

    @property
    def below(self) -> bool:
        """Whether what is left after the jobs is under the level at which it is ordered again."""
        return self.reorder > 0 and self.on_hand + self.on_order - self.needed < self.level


def still_to_order(buying: Buying, ordered: Iterable[Ordered]) -> tuple[Still, ...]:
    """What is wanted beyond what was ordered, as packs of the offers that were picked, in the order of the lines."""
    lines = tuple(ordered)
    counted: dict[tuple[str, Size], float] = defaultdict(float)
    for each in lines:
        counted[each.item, each.size] += each.counts
    made = []
    for order in buying.orders:
        for _, pick in order.rows:
            key = (pick.offer.item, (pick.offer.length, pick.offer.width))
            had = min(counted[key], pick.amount)
            counted[key] -= had
            left = math.ceil(round(pick.packs - had / pick.offer.pack, 6))
            mine = [one for one in lines if (one.item, one.size) == key]
            sent, short = sum(one.packs for one in mine), sum(one.short for one in mine)
            made.append(Still(Pick(pick.offer, left), pick.packs, sent, short))
    return tuple(made)


def beyond(buying: Buying, ordered: Iterable[Ordered]) -> Mapping[str, float]:
    """What was ordered and is not wanted any more, by item: to be kept, or given back."""
    over: dict[str, float] = defaultdict(float)
    for each in ordered:
        over[each.item] += each.counts
    for order in buying.orders:
        for _, pick in order.rows:
            over[pick.offer.item] -= pick.amount
    return {item: round(amount, 6) for item, amount in over.items() if amount > 0}


def shortfall(
    jobs: Iterable[Buying], on_hand: Mapping[str, float], on_order: Mapping[str, float], levels: Mapping[str, tuple[float, float]]
) -> tuple[Short, ...]:
    """What is short across jobs, and what has fallen under its reorder level, by item."""
    needed: dict[str, float] = defaultdict(float)
    for buying in jobs:
        for purchase in buying.purchases:
            needed[purchase.line.item.code] += _wanted(purchase)
    rows = (
        Short(item, round(needed.get(item, 0.0), 6), on_hand.get(item, 0.0), on_order.get(item, 0.0), *levels.get(item, (0.0, 0.0)))
        for item in sorted({*needed, *levels})
    )
    return tuple(row for row in rows if row.lacking or row.below)


def _wanted(purchase: Purchase) -> float:
    """What a job needs of an item besides kits and rack: by the bar or sheet where it is cut, else what is used, for jobs share a pack."""
    if purchase.line.own:
        return 0.0
    if purchase.line.cuts:
        return purchase.from_stock.value + sum(pick.amount for pick in purchase.picks)
    return purchase.line.needed - purchase.from_kits.value - purchase.from_rack.value
