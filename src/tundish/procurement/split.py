"""Who to buy from: the whole need shared among suppliers for least money, then fewest orders, then soonest here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from types import MappingProxyType
from typing import Final

from tundish.catalogue.item import Offer, Supplier
from tundish.procurement.purchase import Pick, Want

MOST_FOUND: Final = 512


@dataclass(frozen=True, slots=True)
class Tier:
    """A range of packs at one price each, pence."""

    low: int
    high: int
    pence: float


@dataclass(frozen=True, slots=True)
class Split:
    """The picks of each want, place for place, and what they come to; `proven` says that no other split is better."""

    picks: tuple[tuple[Pick, ...], ...]
    goods: Decimal
    carriage: Decimal
    orders: int
    days: int
    proven: bool

    @property
    def cost(self) -> Decimal:
        """What it costs altogether, without VAT."""
        return self.goods + self.carriage


Kept = Mapping[Want, tuple[Pick, ...]]
"""What was picked before for what was wanted."""
NOTHING: Final[Kept] = MappingProxyType({})
_FOUND: Final[dict[tuple[tuple[Want, ...], tuple[Supplier, ...]], Split]] = {}


def tiers(want: Want, offer: Offer) -> tuple[Tier, ...]:
    """The packs of an offer that may be taken: no more than alone would meet the want, or what a minimum or a better price asks for."""
    most = want.packs(offer)
    starts = sorted({max(offer.least, 1), *(number for number, _ in offer.breaks if number > offer.least)})
    made = []
    for place, low in enumerate(starts):
        before_next = starts[place + 1] - 1 if place + 1 < len(starts) else max(most, low)
        made.append(Tier(low, max(min(before_next, most), low), float(offer.each(low) * 100)))
    return tuple(made)


def cheapest(want: Want) -> Pick | None:
    """The one offer that meets a want alone for least money; of equals, the first supplier by key."""
    best: Pick | None = None
    for offer in sorted(want.offers, key=lambda each: (each.supplier, each.code)):
        alone = want.packs(offer)
        for tier in tiers(want, offer) if alone else ():
            packs = max(alone, tier.low)
            pick = Pick(offer, packs)
            if packs <= tier.high and (best is None or pick.cost < best.cost):
                best = pick
    return best


def quick(wants: tuple[Want, ...], suppliers: Mapping[str, Supplier]) -> Split:
    """Each want from whoever sells it cheapest: sound at once, carriage not looked at."""
    found = (cheapest(want) for want in wants)
    return told(tuple((pick,) if pick else () for pick in found), suppliers, proven=False)


def near(wants: tuple[Want, ...], suppliers: Mapping[str, Supplier], kept: Kept) -> Split:
    """What is wanted as before is bought as it was `kept`; the rest each by itself, where carriage is paid already without more of it.

    The quick split where nothing is kept, and the best where a supplier comes to bring for nothing, or no longer does. So what one change
    costs is seen, and not another way to buy everything.
    """
    if not kept:
        return quick(wants, suppliers)
    paid = {pick.offer.supplier for want in wants for pick in kept.get(want, ())}
    free = {key: replace(one, carriage=Decimal(0)) if key in paid else one for key, one in suppliers.items()}
    picks = tuple(kept[want] if want in kept else best((want,), free).picks[0] for want in wants)
    split, before = told(picks, suppliers, proven=False), told(tuple(kept.values()), suppliers, proven=False)
    return split if split.carriage == before.carriage else best(wants, suppliers)


def best(wants: tuple[Want, ...], suppliers: Mapping[str, Supplier]) -> Split:
    """The best split there is, in exact optimisation; the quick one where the search gives up."""
    question = _question(wants, suppliers)
    found = _FOUND.get(question) or _best(*question)
    _FOUND.pop(question, None)  # what was asked last is forgotten last
    while len(_FOUND) >= MOST_FOUND:
        _FOUND.pop(next(iter(_FOUND)), None)
    _FOUND[question] = found
    return found


def known(wants: tuple[Want, ...], suppliers: Mapping[str, Supplier]) -> Split | None:
    """The best split, where it was found before: then nothing changes twice while it is looked for again."""
    return _FOUND.get(_question(wants, suppliers))


def _question(wants: tuple[Want, ...], suppliers: Mapping[str, Supplier]) -> tuple[tuple[Want, ...], tuple[Supplier, ...]]:
    return wants, tuple(suppliers[key] for key in sorted(suppliers))


def _best(wants: tuple[Want, ...], suppliers: tuple[Supplier, ...]) -> Split:
    from tundish.procurement.optimiser import choose_packs

    by_key = {one.key: one for one in suppliers}
    at_once = quick(wants, by_key)
    if len({offer.supplier for want in wants for offer in want.offers}) <= 1 and not any(_several(want) for want in wants):
        return replace(at_once, proven=True)
    packs, proven = choose_packs(wants, suppliers)
    if packs is None:
        return at_once
    picks = tuple(
        tuple(Pick(offer, count) for offer, count in zip(want.offers, counts, strict=True) if count)
        for want, counts in zip(wants, packs, strict=True)
    )
    return told(picks, by_key, proven=proven)


def told(picks: tuple[tuple[Pick, ...], ...], suppliers: Mapping[str, Supplier], *, proven: bool) -> Split:
    """Picks with what they come to."""
    goods: dict[str, Decimal] = {}
    days = 0
    for pick in (one for few in picks for one in few):
        key = pick.offer.supplier
        goods[key] = goods.get(key, Decimal(0)) + pick.cost
        days = max(days, lead(pick.offer, suppliers))
    carriage = sum((carriage_of(suppliers[key], amount) for key, amount in goods.items()), Decimal(0))
    return Split(picks, sum(goods.values(), Decimal(0)), carriage, len(goods), days, proven)


def carriage_of(supplier: Supplier, goods: Decimal) -> Decimal:
    """What a supplier charges for bringing goods of this amount."""
    return Decimal(0) if goods >= supplier.free_above else supplier.carriage


def lead(offer: Offer, suppliers: Mapping[str, Supplier]) -> int:
    """Days from the order to the goods."""
    return suppliers[offer.supplier].lead_days if offer.lead_days is None else offer.lead_days


def _several(want: Want) -> bool:
    """Whether there is anything to choose: another offer, or more of one at a better price."""
    return sum(len(tiers(want, offer)) for offer in want.offers) > 1
