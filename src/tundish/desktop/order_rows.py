"""The rows of Ordering: what is still to be ordered from a supplier, and what was sent with what came of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from tundish import measure
from tundish.catalogue.book import Book
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.documents.order_list import pack_words
from tundish.procurement.outstanding import Still
from tundish.procurement.purchase import Order, Pick, Want, Way
from tundish.procurement.split import carriage_of, cheapest
from tundish.procurement.wishes import ALL_FROM_ONE, BY_A_DAY

if TYPE_CHECKING:
    from tundish.estimate import Estimate
    from tundish.store.keep import Store
    from tundish.store.orders import OrderLine, SentOrder

COLUMNS: Final = (
    Column("Item"),
    Column("Their code", 84),
    Column("Packs", 56, right=True),
    Column("Pack of", 104, right=True),
    Column("Pack, £", 76, right=True),
    Column("Line, £", 84, right=True),
    Column("State", 204),
)
LINE: Final = 5


def way_words(way: Way, book: Book) -> str:
    """A way to buy with what it comes to."""
    names = {ALL_FROM_ONE: f"All from {book.suppliers[way.supplier].name}" if way.supplier else "", BY_A_DAY: "Here by the day"}
    said = f"{names.get(way.aim, 'Cheapest in all')}: {measure.show_money(way.cost)}, {way.days} days"
    missing = "bought elsewhere" if way.aim == ALL_FROM_ONE else "come later"
    return f"{said}, {len(way.elsewhere)} {missing}" if way.elsewhere else said


def still_group(order: Order, still: tuple[Still, ...], start: str) -> Group:
    """What one supplier is still to be asked for; no rows where all of it was sent."""
    rows = []
    goods = order.goods - order.goods
    for place, ((purchase, _), one) in enumerate(zip(order.rows, still, strict=True)):
        if not one.pick.packs:
            continue
        goods += one.pick.cost
        offer, item = one.pick.offer, purchase.line.item
        state = Cell(one.words or "not sent", tone="fails" if one.words else "ink2", glyph="warn" if one.words else "", glyph_tone="fails")
        rows.append(
            Row(
                f"line:{item.code}@{order.supplier.key}/{place}",
                (
                    Cell(item.name, strong=True, glyph="half" if purchase.line.amount.tbc else "", glyph_tone="tbc"),
                    Cell(offer.code, tone="ink2"),
                    Cell(str(one.pick.packs), strong=True),
                    Cell(pack_words(item.unit, offer), tone="ink2"),
                    Cell(measure.show_money(offer.each(one.pick.packs), sign=False)),
                    Cell(measure.show_money(one.pick.cost, sign=False), strong=True),
                    state,
                ),
            )
        )
    if not rows:
        return Group(f"still:{order.supplier.key}", order.supplier.name, ())
    carriage = carriage_of(order.supplier, goods)
    rows.append(_carriage(order.supplier.key, measure.show_money(carriage, sign=False) if carriage else "free"))
    days = order.supplier.lead_days
    by = f"order {days} days before {measure.show_date(start, with_year=False)}" if start else f"{days} days to come"
    note = f"{len(rows) - 1} {'line' if len(rows) == 2 else 'lines'}, not sent, {by}"  # noqa: PLR2004
    total = Cell(measure.show_money(goods + carriage), strong=True)
    return Group(f"still:{order.supplier.key}", order.supplier.name, tuple(rows), note, subtotals=((LINE, total),))


def left_out_group(estimate: Estimate) -> Group:
    """What the job needs and no order has: offers that are never bought, to be let in again, and what nobody sells."""
    book, rows = estimate.book, []
    for purchase in estimate.buying.purchases:
        item = purchase.line.item
        never = [] if purchase.line.own else [each for each in book.offers.get(item.code, ()) if not book.buys(each)]
        for offer in never if purchase.wants else ():
            name = book.suppliers[offer.supplier].name if offer.supplier in book.suppliers else offer.supplier
            words = "never this one" if purchase.priced else "never: in no order"
            rows.append(_left_out(f"never:{item.code}@{offer.key}", f"{item.name}, {name}", offer.code, words, wanted=not purchase.priced))
        if not purchase.priced and not never:
            rows.append(_left_out(f"none:{item.code}", item.name, "", "nobody sells it", wanted=True))
    return Group("left out", "Never bought, or sold by nobody", tuple(rows), "in no order" if rows else "")


def _left_out(key: str, name: str, code: str, words: str, *, wanted: bool) -> Row:
    state = Cell(words, tone="fails" if wanted else "ink2", glyph="warn" if wanted else "", glyph_tone="fails")
    return Row(key, (Cell(name, strong=wanted), Cell(code, tone="ink2"), Cell(), Cell(), Cell(), Cell(), state))


def levels_of(store: Store, book: Book) -> dict[str, tuple[Pick, ...]]:
    """What is under its reorder level on hand and on order, as picks by supplier; what nobody sells is left out."""
    from tundish.store.ledger import Ledger
    from tundish.store.orders import Orders

    ledger = Ledger(store)
    had = dict(book.stock)
    for order in Orders(store).all(""):
        for line in order.lines if order.sent else ():
            had[line.item] = had.get(line.item, 0.0) + line.coming * line.pack
    made: dict[str, tuple[Pick, ...]] = {}
    for item, level in ledger.reorders().items():
        pick = cheapest(Want(level.amount, book.on_offer(item))) if had.get(item, 0.0) < level.level else None
        if pick is not None:
            made[pick.offer.supplier] = (*made.get(pick.offer.supplier, ()), pick)
    return made


def level_group(key: str, picks: tuple[Pick, ...], book: Book) -> Group:
    """What the van itself wants from one supplier: offered, and sent only when asked."""
    rows = tuple(
        Row(
            f"level:{pick.offer.item}@{key}",
            (
                Cell(book.item(pick.offer.item).name),
                Cell(pick.offer.code, tone="ink2"),
                Cell(str(pick.packs), strong=True),
                Cell(pack_words(book.item(pick.offer.item).unit, pick.offer), tone="ink2"),
                Cell(measure.show_money(pick.offer.each(pick.packs), sign=False)),
                Cell(measure.show_money(pick.cost, sign=False)),
                Cell("under its level", tone="tbc"),
            ),
        )
        for pick in picks
    )
    return Group(f"level:{key}", f"For the van, {book.suppliers[key].name}", rows, "offered: choose a line and send")


def sent_group(order: SentOrder, book: Book) -> Group:
    """One order that was sent, with what came of every line."""
    supplier = book.suppliers[order.supplier].name if order.supplier in book.suppliers else order.supplier
    came = "" if order.state == "sent" else f"{order.state}, "
    note = f"{came}sent {measure.show_date(order.sent[:10], with_year=False)} {order.how}"
    total = Cell(measure.show_money(order.goods), strong=True)
    rows = tuple(_sent_row(order, line, book) for line in order.lines)
    return Group(f"order:{order.id}", f"{supplier}, order {order.number}", rows, note, subtotals=((LINE, total),))


def _sent_row(order: SentOrder, line: OrderLine, book: Book) -> Row:
    item = book.items.get(line.item)
    words = [f"{line.came} of {line.packs} in" if line.came else "to come"] if line.coming or line.came else []
    words += [f"{line.short} short"] if line.short else []
    words += [f"{line.returned} back {measure.show_money(line.credit)}"] if line.returned else []
    done = line.came >= line.packs
    return Row(
        f"order:{order.id}:{line.id}",
        (
            Cell(item.name if item else line.item),
            Cell(line.code, tone="ink2"),
            Cell(str(line.packs), strong=True),
            Cell(pack_words(item.unit if item else "each", line), tone="ink2"),
            Cell(measure.show_money(line.price, sign=False)),
            Cell(measure.show_money(line.price * line.packs, sign=False)),
            Cell(", ".join(words), tone="fails" if line.short else "settled" if done else "ink2", glyph="tick" if done else ""),
        ),
    )


def _carriage(key: str, words: str) -> Row:
    return Row(f"carriage:{key}", (Cell("Carriage", tone="ink2"), Cell(), Cell(), Cell(), Cell(), Cell(words), Cell()))
