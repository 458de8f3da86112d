"""The order list: what one supplier is asked for."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from tundish import measure
from tundish.catalogue.item import Supplier
from tundish.documents.block import Amount, Block, Column, Document, Facts, FillIn, Paragraph, Row, SideBySide, Sums, Table, Value
from tundish.documents.paper import lines_of, paper
from tundish.estimate import Estimate
from tundish.figure import Figure
from tundish.pricing.build_up import SUPPLIERS_VAT
from tundish.pricing.pennies import penny
from tundish.procurement.purchase import Order, Pick, Purchase

LINE_MONEY = 8
"""The column that the goods are added up in."""
_COLUMNS = (
    Column("Code", "text", 1.4),
    Column("Item", "text", 4.0),
    Column("Need", "text", 0.9),
    Column("Held", "text", 0.9, "quiet"),
    Column("Buy", "text", 0.9),
    Column("Packs", "count", 0.65, "strong"),
    Column("Pack of", "text", 1.0),
    Column("Each, £", "money", 0.8),
    Column("Line, £", "money", 0.9),
    Column("In", "tick", 0.35),
)


@dataclass(frozen=True, slots=True)
class Asked:
    """One line of an order: packs of an item at a price each; `length` and `width` for bars and sheets; `short` will not come."""

    item: str
    code: str
    packs: int
    pack: float
    price: Decimal
    length: float = 0.0
    width: float = 0.0
    short: int = 0


@dataclass(frozen=True, slots=True)
class Placed:
    """An order as it is drafted or was sent: `number` is "" and `sent` (ISO) "" for a draft that nobody kept yet."""

    supplier: Supplier
    lines: tuple[Asked, ...]
    carriage: Decimal
    number: str = ""
    sent: str = ""
    how: str = ""

    def brings(self, item: str) -> float:
        """How much of an item it will bring or has brought, in the item's unit."""
        return sum((each.packs - each.short) * each.pack for each in self.lines if each.item == item)


def build_all(estimate: Estimate, placed: Sequence[Placed] | None = None) -> tuple[Document, ...]:
    """One order list for each order placed; where none is named, one a supplier for all that is to be bought, not sent."""
    orders = tuple(drafted(order) for order in estimate.buying.orders) if placed is None else placed
    return tuple(build(estimate, orders, place) for place in range(len(orders)))


def drafted(order: Order) -> Placed:
    """A supplier's whole order, not sent."""
    return Placed(order.supplier, tuple(asked(pick) for _, pick in order.rows), order.carriage)


def asked(pick: Pick) -> Asked:
    """The line that asks for a pick."""
    offer = pick.offer
    return Asked(offer.item, offer.code, pick.packs, offer.pack, offer.each(pick.packs), offer.length, offer.width)


def build(estimate: Estimate, orders: Sequence[Placed], place: int) -> Document:
    """The list for one order of a job's: who, when and how, and each line with what it is needed for and where the rest comes from."""
    order, job = orders[place], estimate.job
    supplier = order.supplier
    goods = sum((each.price * each.packs for each in order.lines), Decimal(0))
    needed = measure.show_date(job.terms.start) if job.terms.start else "to be agreed"
    sent = f"{order.number}, sent {measure.show_date(order.sent[:10])}, {order.how}" if order.sent else "Draft, not sent"
    head = Facts(
        (
            ("To", (supplier.name, *lines_of(supplier.address), supplier.phone)),
            ("Deliver to", (job.client.name, *lines_of(job.client.address))),
            ("Needed by", (needed,)),
            ("Order", (sent, f"Account {supplier.account or '–'}")),
        )
    )
    shared = any(one is not order and one.brings(each.item) for one in orders for each in order.lines)
    carriage = "Carriage" if order.carriage else "Carriage, free at this amount"
    table = Table(_COLUMNS, tuple(_rows(estimate, orders, place)), totals=(LINE_MONEY,), total_label="Goods, without VAT")
    sums = Sums(((carriage, order.carriage), ("Without VAT", goods + order.carriage)), table)
    blocks = (
        head,
        table,
        SideBySide(_words_below(goods + order.carriage, shared=shared), (sums,)),
        FillIn("Goods in, checked against this list, shortages marked", (), ("By", "Date")),
    )
    key = f"order-{supplier.key}-{order.number}" if order.sent else f"order-{supplier.key}"
    title = f"Order list, {supplier.name}{f', {order.number}' if order.sent else ''}"
    return paper(estimate, key, title, blocks, tables_only=True)


def _words_below(total: Decimal, *, shared: bool) -> tuple[Block, ...]:
    """What is to be known of the list, beside its sum."""
    of_several = " Of an item in several orders each has its share of the need, the first with what is held." if shared else ""
    vat = measure.show_money(penny(total * SUPPLIERS_VAT / 100))
    return (
        Paragraph("Ask before sending anything else: sizes and connections were worked out with these.", "strong"),
        Paragraph(
            f"Need, and what is held of it in kits, rack and stock, are for the whole job; an item in two sizes has them once.{of_several}"
            f" VAT is as the supplier charges it; at {SUPPLIERS_VAT} % it would be {vat}.",
            "note",
        ),
    )


def _rows(estimate: Estimate, orders: Sequence[Placed], place: int) -> Iterator[Row]:
    purchases = {each.line.item.code: each for each in estimate.buying.purchases}
    told: set[str] = set()
    for each in orders[place].lines:
        purchase = None if each.item in told else purchases.get(each.item)
        told.add(each.item)
        yield _row(each, purchase, _sources(purchase, orders, place), estimate)


def _row(line: Asked, purchase: Purchase | None, sources: tuple[Value, ...], estimate: Estimate) -> Row:
    item = estimate.book.items.get(line.item)
    name, unit = (item.name, item.unit) if item else (line.item, "each")
    packs = (line.packs, pack_words(unit, line), line.price, line.price * line.packs, "")
    return Row((line.code, name, *sources, *packs), bool(purchase and purchase.line.amount.tbc))


def _sources(purchase: Purchase | None, orders: Sequence[Placed], place: int) -> tuple[Value, ...]:
    """The need of a line, what kits, rack and stock together give of it, and what is left to buy: what this order is to meet of them.

    Of what several orders bring each meets what those before it leave, the first what is held as well.
    """
    if purchase is None:
        return ("",) * 3
    amount = purchase.line.amount
    held = (purchase.from_kits + purchase.from_rack + purchase.from_stock).value
    need, buy = amount.value, purchase.to_buy.value
    brought = [order.brings(purchase.line.item.code) for order in orders]
    if sum(each > 0 for each in brought) > 1:
        before = sum(brought[:place])
        held = 0.0 if before else held
        buy = min(brought[place], max(buy - before, 0.0))
        need = held + buy
    return _amount(need, amount.unit), _amount(held, amount.unit) if held else "–", _amount(buy, amount.unit)


def _amount(amount: float, unit: str) -> Amount:
    return Amount(measure.show_length(amount)) if unit == "mm" else amount_of(amount, unit)


def as_words(estimate: Estimate, order: Order, picks: Sequence[Pick]) -> str:
    """An order as plain text, to paste into a message."""
    job, trader = estimate.job, estimate.book.trader
    names = {purchase.line.item.code: purchase.line.item for purchase, _ in order.rows}
    rows = [
        f"{pick.packs} × {pick.offer.code}  {names[pick.offer.item].name} ({pack_words(names[pick.offer.item].unit, pick.offer)})"
        for pick in picks
        if pick.packs
    ]
    wanted = f"Wanted by {measure.show_date(job.terms.start)}." if job.terms.start else "When can it be here?"
    where = ", ".join((job.client.name, *lines_of(job.client.address)))
    head = f"Order for job {job.number}, account {order.supplier.account or 'none'}"
    signed = "\n".join(part for part in (trader.name, trader.phone) if part)
    return "\n".join((head, "", *rows, "", f"Deliver to: {where}", wanted, "Please ask before sending anything else in place.", "", signed))


def amount_of(amount: float, unit: str) -> Amount:
    """An amount as a cell: in words on paper, a number in a spreadsheet."""
    return Amount(amount_words(amount, unit), "" if unit == "each" else unit)


def amount_words(amount: float, unit: str) -> str:
    """An amount with its unit; what is counted is shown whole, and by its number alone."""
    return f"{math.ceil(round(amount, 6)):,}" if unit == "each" else measure.show_amount(amount, unit, with_unit=True)


def amount_reach(amount: Figure) -> str:
    """From least to most, "5,236 to 5,268 mm"; nothing where both read alike."""
    least, most = (amount_words(end, amount.unit) for end in (amount.low, amount.high))
    return "" if least == most else f"{least.removesuffix(f' {amount.unit}')} to {most}"


def pack_words(unit: str, offer: object) -> str:
    """What one pack holds, in words: "3,000 mm", "20 kg", "100", "1,200 × 2,400"."""
    length, width, pack = (getattr(offer, name) for name in ("length", "width", "pack"))
    if width:
        return f"{length:,.0f} × {width:,.0f}"
    if length:
        return f"{length:,.0f} mm"
    return f"{pack:,g}" if unit == "each" else f"{pack:,g} {unit}"
