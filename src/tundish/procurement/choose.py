"""Meeting every line: kits first, then the rack and the van, then whole packs of the cheapest offer."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping
from decimal import Decimal

from tundish.catalogue.book import Book
from tundish.catalogue.item import Offer, RackPiece
from tundish.cutting.plan import BarPlan
from tundish.cutting.plans import CutPlan
from tundish.figure import number
from tundish.procurement.purchase import Buying, LeftOver, Order, Pick, Purchase
from tundish.takeoff.line import Line


def choose(lines: tuple[Line, ...], cuts: tuple[CutPlan, ...], book: Book) -> Buying:
    """Meet every line and make one order a supplier; what kits and packs hold beyond the need is left over."""
    kits = _kit_contents(lines, book)
    plans = {plan.item.code: plan for plan in cuts}
    stock = dict(book.stock)
    purchases = tuple(_meet(line, plans.get(line.item.code), kits, stock, book) for line in lines)
    left = (*_unused(kits, book), *_surplus(purchases))
    return Buying(purchases, _orders(purchases, book), left)


def cheapest(offers: Iterable[Offer], amount: float) -> Pick | None:
    """The offer whose whole packs meet an amount for least money; of equals, the first supplier by key."""
    best: Pick | None = None
    for offer in sorted(offers, key=lambda each: (each.supplier, each.code)):
        pick = Pick(offer, _packs(amount, offer.pack))
        if pick.packs and (best is None or pick.cost < best.cost):
            best = pick
    return best


def _kit_contents(lines: tuple[Line, ...], book: Book) -> dict[str, float]:
    held: dict[str, float] = defaultdict(float)
    for line in lines:
        for part in book.kits.get(line.item.code, ()):
            held[part.item] += part.amount * _whole(line)
    return held


def _meet(line: Line, plan: CutPlan | None, kits: dict[str, float], stock: dict[str, float], book: Book) -> Purchase:
    unit = line.amount.unit
    nothing = number(0, unit)
    if line.own:
        return Purchase(line, nothing, nothing, nothing, nothing, ())
    if plan is not None and line.cuts:
        return _meet_cut(line, plan)
    need = _whole(line)
    kit = _take(kits, line.item.code, need)
    van = _take(stock, line.item.code, need - kit)
    buy = round(need - kit - van, 6)
    from_kits, from_stock = number(kit, unit, "from kits"), number(van, unit, "from stock")
    to_buy = (line.amount - from_kits - from_stock).named(f"{line.item.name}, to buy")
    pick = cheapest(book.offers.get(line.item.code, ()), buy) if buy > 0 else None
    return Purchase(line, from_kits, nothing, from_stock, to_buy, (pick,) if pick else (), priced=buy <= 0 or pick is not None)


def _meet_cut(line: Line, plan: CutPlan) -> Purchase:
    counts = plan.plan.used()
    picks = tuple(Pick(source, count) for source, count in zip(plan.sources, counts, strict=True) if count and isinstance(source, Offer))
    racked = sum(_cut_from(plan, place) for place, source in enumerate(plan.sources) if isinstance(source, RackPiece))
    unit = line.amount.unit
    from_rack = number(racked, unit, "cut from the rack")
    to_buy = (line.amount - from_rack).named(f"{line.item.name}, from new stock")
    return Purchase(line, number(0, unit), from_rack, number(0, unit), to_buy, picks, priced=not plan.plan.unplaced)


def _cut_from(plan: CutPlan, place: int) -> float:
    """Length (mm), or area (m²), of the pieces cut from one source."""
    if isinstance(plan.plan, BarPlan):
        return sum(plan.plan.pieces[one].length for cut in plan.plan.cuts if cut.bar == place for one in cut.pieces)
    return sum(one.length * one.width / 1e6 for cut in plan.plan.cuts if cut.sheet == place for one in cut.places)


def _whole(line: Line) -> float:
    """What is needed; things that are counted are needed whole."""
    return math.ceil(round(line.amount.value, 6)) if line.item.unit in {"each", "visit", "day"} else line.amount.value


def _take(shelf: dict[str, float], code: str, wanted: float) -> float:
    # More was booked out than was there: that is shown on Stock, and nothing can be taken from it.
    taken = min(max(wanted, 0.0), max(shelf.get(code, 0.0), 0.0))
    if taken:
        shelf[code] -= taken
    return taken


def _packs(amount: float, pack: float) -> int:
    return math.ceil(round(amount / pack, 6))


def _unused(kits: Mapping[str, float], book: Book) -> tuple[LeftOver, ...]:
    return tuple(LeftOver(book.item(code), left, "in a kit, not used here") for code, left in kits.items() if left > 0)


def _surplus(purchases: tuple[Purchase, ...]) -> tuple[LeftOver, ...]:
    rows = []
    for each in purchases:
        if each.line.cuts or not each.picks:
            continue
        bought = sum(pick.offer.pack * pick.packs for pick in each.picks)
        left = round(bought - (_whole(each.line) - each.from_kits.value - each.from_stock.value), 6)
        if left > 0:
            rows.append(LeftOver(each.line.item, left, "whole packs"))
    return tuple(rows)


def _orders(purchases: tuple[Purchase, ...], book: Book) -> tuple[Order, ...]:
    rows: dict[str, list[tuple[Purchase, Pick]]] = defaultdict(list)
    for purchase in purchases:
        for pick in purchase.picks:
            rows[pick.offer.supplier].append((purchase, pick))
    return tuple(_order(key, tuple(rows[key]), book) for key in sorted(rows))


def _order(key: str, rows: tuple[tuple[Purchase, Pick], ...], book: Book) -> Order:
    supplier = book.suppliers[key]
    goods = sum((pick.cost for _, pick in rows), Decimal(0))
    return Order(supplier, rows, goods, Decimal(0) if goods >= supplier.free_above else supplier.carriage)
