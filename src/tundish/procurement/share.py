"""Sharing what is wanted among suppliers as the trader wishes, with the reason and what the other ways would come to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from tundish import measure
from tundish.catalogue.book import Book
from tundish.cutting.plan import Effort
from tundish.procurement.purchase import Buying, Want, Way
from tundish.procurement.split import NOTHING, Kept, Split, best, known, lead, near
from tundish.procurement.wishes import AIMS, ALL_FROM_ONE, BY_A_DAY, CHEAPEST, Wishes


@dataclass(frozen=True, slots=True)
class Shared:
    """The split that was taken, why, and the ways that were looked at."""

    split: Split
    reason: str
    ways: tuple[Way, ...]


def share(wants: tuple[Want, ...], book: Book, wishes: Wishes, effort: Effort, kept: Kept = NOTHING) -> Shared:
    """Share the wants out; at once by what is `kept`, else by each cheapest offer, or with all ways worked out and the best proven."""
    wanted = _wanted(wants, book, wishes)
    if effort is Effort.QUICK:
        return Shared(known(wanted, book.suppliers) or near(wanted, book.suppliers, kept), "", ())
    ways = [_way(CHEAPEST, "", wants, wants, book)]
    sellers = sorted({offer.supplier for want in wants for offer in want.offers})
    ways += [_way(ALL_FROM_ONE, key, wants, _from_one(wants, key), book) for key in sellers]
    if wishes.by:
        ways.append(_way(BY_A_DAY, "", wants, _by(wants, book, wishes.by), book))
    taken = best(wanted, book.suppliers)
    return Shared(taken, _reason(taken, wishes, ways, wants, book), tuple(ways))


def way_taken(buying: Buying, wishes: Wishes, book: Book) -> Way:
    """The way that is bought by at once, with what it comes to, before others are looked at."""
    aim = wishes.aim if wishes.aim in AIMS else CHEAPEST
    supplier = wishes.supplier if aim == ALL_FROM_ONE else ""
    cost = sum((order.goods + order.carriage for order in buying.orders), Decimal(0))
    days = max((lead(pick.offer, book.suppliers) for order in buying.orders for _, pick in order.rows), default=0)
    return Way(aim, supplier, cost, len(buying.orders), days)


def _wanted(wants: tuple[Want, ...], book: Book, wishes: Wishes) -> tuple[Want, ...]:
    if wishes.aim == ALL_FROM_ONE and wishes.supplier:
        return _from_one(wants, wishes.supplier)
    if wishes.aim == BY_A_DAY and wishes.by:
        return _by(wants, book, wishes.by)
    return wants


def _from_one(wants: Iterable[Want], key: str) -> tuple[Want, ...]:
    """The wants with one supplier's offers only, where that supplier sells them."""
    return tuple(replace(want, offers=tuple(each for each in want.offers if each.supplier == key) or want.offers) for want in wants)


def _by(wants: Iterable[Want], book: Book, day: str) -> tuple[Want, ...]:
    """The wants with the offers that are here by a day, ordered today; all of them where none is."""
    days = _days_until(day, book.date)
    return tuple(
        replace(want, offers=tuple(each for each in want.offers if lead(each, book.suppliers) <= days) or want.offers) for want in wants
    )


def _days_until(day: str, today: str) -> int:
    return (date.fromisoformat(day) - date.fromisoformat(today)).days if today else 0


def _way(aim: str, supplier: str, all_: tuple[Want, ...], kept: tuple[Want, ...], book: Book) -> Way:
    split = best(kept, book.suppliers)
    elsewhere: tuple[str, ...] = ()
    if aim == ALL_FROM_ONE:
        elsewhere = tuple(few[0].offer.item for few in split.picks if few and few[0].offer.supplier != supplier)
    elif aim == BY_A_DAY:
        elsewhere = tuple(want.offers[0].item for want, was in zip(kept, all_, strict=True) if want.offers and want.offers == was.offers)
    return Way(aim, supplier, split.cost, split.orders, split.days, elsewhere)


def _bound(wants: Iterable[Want], book: Book) -> bool:
    """Whether what is always or never bought leaves anything out that sells what is wanted."""
    items = {offer.item for want in wants for offer in want.offers}
    return any(len(book.on_offer(item)) < sum(each.valid(book.date) for each in book.offers.get(item, ())) for item in items)


def _reason(taken: Split, wishes: Wishes, ways: list[Way], wants: tuple[Want, ...], book: Book) -> str:
    """In a sentence, why it is bought so."""
    said = (
        f"{taken.orders} {'order' if taken.orders == 1 else 'orders'}, {measure.show_money(taken.cost)} with carriage, in {taken.days} days"
    )
    if wishes.aim == CHEAPEST or wishes.aim not in AIMS:
        ones = [way for way in ways if way.aim == ALL_FROM_ONE and not way.elsewhere]
        dearer = min(ones, key=lambda way: way.cost, default=None)
        more = ""
        if dearer is not None and dearer.cost > taken.cost:
            name = book.suppliers[dearer.supplier].name
            more = f" All from {name} would be {measure.show_money(dearer.cost - taken.cost)} more."
        proof = "the least it can cost" if taken.proven else "the least that was found"
        bound = " by what you always and never buy" if _bound(wants, book) else ""
        return f"{said}: {proof}{bound}.{more}"
    over = taken.cost - ways[0].cost
    whose = book.suppliers[wishes.supplier].name if wishes.supplier in book.suppliers else "one supplier"
    what = f"all from {whose}" if wishes.aim == ALL_FROM_ONE else f"here by {measure.show_date(wishes.by)}"
    return f"{said}: {what} was asked for; {measure.show_money(over)} more than the cheapest."
