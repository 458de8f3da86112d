"""Meeting every line: kits first, then the rack and the van, then whole packs bought in the best split of suppliers."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Offer, RackPiece
from tundish.cutting.plan import BarPlan, Effort
from tundish.cutting.plans import CutPlan
from tundish.figure import number
from tundish.procurement.purchase import Buying, LeftOver, Order, Pick, Purchase, Want
from tundish.procurement.share import share
from tundish.procurement.split import carriage_of
from tundish.procurement.wishes import Wishes
from tundish.takeoff.line import Line

PLAIN: Final = Wishes()
IN_A_KIT: Final = "in a kit, not used here"


def choose(
    lines: tuple[Line, ...],
    cuts: tuple[CutPlan, ...],
    book: Book,
    wishes: Wishes = PLAIN,
    effort: Effort = Effort.QUICK,
    near: tuple[Purchase, ...] = (),
) -> Buying:
    """Meet every line and make one order a supplier; what kits and packs hold beyond the need is left over.

    With `effort` BEST the suppliers are shared out by exact search, and the other ways to buy are told with what they come to. Without,
    what is wanted as it was in purchases `near` is bought as it was.
    """
    kits = _kit_contents(lines, book)
    plans = {plan.item.code: plan for plan in cuts}
    stock = dict(book.stock)
    met = tuple(_meet(line, plans.get(line.item.code), kits, stock, book) for line in lines)
    wants = tuple(want for each in met for want in each.wants)
    shared = share(wants, book, wishes, effort, _picked(near))
    bought = iter(shared.split.picks)
    purchases = tuple(_bought(each, tuple(next(bought) for _ in each.wants)) for each in met)
    left = (*_unused(kits, book), *_surplus(purchases))
    return Buying(purchases, _orders(purchases, book), left, shared.reason, shared.split.proven, shared.ways)


def _picked(purchases: tuple[Purchase, ...]) -> dict[Want, tuple[Pick, ...]]:
    return {want: tuple(pick for pick in each.picks if pick.offer in want.offers) for each in purchases for want in each.wants}


def _kit_contents(lines: tuple[Line, ...], book: Book) -> dict[str, float]:
    held: dict[str, float] = defaultdict(float)
    for line in lines:
        for part in book.in_kit(line.item.code):
            held[part.item] += part.amount * line.needed
    return held


def _meet(line: Line, plan: CutPlan | None, kits: dict[str, float], stock: dict[str, float], book: Book) -> Purchase:
    """What a line takes from kits, rack and stock, and what is wanted besides."""
    unit = line.amount.unit
    nothing = number(0, unit)
    if line.own:
        return Purchase(line, nothing, nothing, nothing, ())
    if plan is not None and line.cuts:
        return _meet_cut(line, plan, book)
    need = line.needed
    kit = _take(kits, line.item.code, need)
    van = _take(stock, line.item.code, need - kit)
    buy = round(need - kit - van, 6)
    from_kits = number(kit, unit, "from kits") if kit else nothing
    from_stock = number(van, unit, "from stock") if van else nothing
    wants = (Want(buy, book.on_offer(line.item.code)),) if buy > 0 else ()
    return Purchase(line, from_kits, nothing, from_stock, (), wants=wants)


def _meet_cut(line: Line, plan: CutPlan, book: Book) -> Purchase:
    sizes = [(source, count) for source, count in zip(plan.sources, plan.plan.used(), strict=True) if count and isinstance(source, Offer)]
    racked = sum(_cut_from(plan, place) for place, source in enumerate(plan.sources) if isinstance(source, RackPiece))
    unit = line.amount.unit
    from_rack = number(racked, unit, "cut from the rack")
    wants = tuple(Want(count, _of_size(source, book), by_piece=True) for source, count in sizes)
    nothing, worth = number(0, unit), Decimal(plan.plan.rack_pence) / 100
    return Purchase(line, nothing, from_rack, nothing, (), priced=not plan.plan.unplaced, rack_cost=worth, wants=wants)


def _of_size(source: Offer, book: Book) -> tuple[Offer, ...]:
    """Everybody's offer of one size of bar or sheet; the one the plan was made with where none holds today and it may be bought."""
    there = tuple(filter(None, (_at(each, source) for each in book.on_offer(source.item))))
    return there or ((source,) if book.buys(source) else ())


def _at(offer: Offer, source: Offer) -> Offer | None:
    """The offer in the size of the source, if it comes in it or is cut to it."""
    if offer.cut_to_length:
        return offer.cut_at(source.length) if not source.width and source.length <= offer.length else None
    return offer if (offer.length, offer.width) == (source.length, source.width) else None


def _bought(purchase: Purchase, picks: tuple[tuple[Pick, ...], ...]) -> Purchase:
    one, flat = purchase, tuple(pick for few in picks for pick in few)
    # Written out, for there is one for every line: replace() takes three times as long.
    return Purchase(one.line, one.from_kits, one.from_rack, one.from_stock, flat, one.priced and all(picks), one.rack_cost, one.wants)


def _cut_from(plan: CutPlan, place: int) -> float:
    """Length (mm), or area (m²), of the pieces cut from one source."""
    if isinstance(plan.plan, BarPlan):
        return sum(plan.plan.pieces[one].length for cut in plan.plan.cuts if cut.bar == place for one in cut.pieces)
    return sum(one.length * one.width / 1e6 for cut in plan.plan.cuts if cut.sheet == place for one in cut.places)


def _take(shelf: dict[str, float], code: str, wanted: float) -> float:
    # More was booked out than was there: that is shown on Stock, and nothing can be taken from it.
    taken = min(max(wanted, 0.0), max(shelf.get(code, 0.0), 0.0))
    if taken:
        shelf[code] -= taken
    return taken


def _unused(kits: Mapping[str, float], book: Book) -> tuple[LeftOver, ...]:
    return tuple(LeftOver(book.item(code), left, IN_A_KIT) for code, left in kits.items() if left > 0)


def _surplus(purchases: tuple[Purchase, ...]) -> tuple[LeftOver, ...]:
    rows = []
    for each in purchases:
        if not each.picks or each.line.cuts:
            continue
        bought = sum(pick.amount for pick in each.picks)
        left = round(bought - (each.line.needed - each.from_kits.value - each.from_stock.value), 6)
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
    return Order(supplier, rows, goods, carriage_of(supplier, goods))
