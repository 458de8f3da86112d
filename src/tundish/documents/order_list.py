"""The order list: what one supplier is asked for."""

from __future__ import annotations

from collections.abc import Sequence

from tundish import measure
from tundish.documents.block import Column, Document, Facts, FillIn, Paragraph, Row, Sums, Table
from tundish.documents.paper import lines_of, paper
from tundish.estimate import Estimate
from tundish.pricing.build_up import SUPPLIERS_VAT
from tundish.pricing.pennies import penny
from tundish.procurement.purchase import Order, Pick, Purchase

_COLUMNS = (
    Column("Code", "text", 1.3),
    Column("Item", "text", 3.4),
    Column("Packs", "count", 0.7, "strong"),
    Column("Pack of", "text", 1.0),
    Column("Each, £", "money", 0.9),
    Column("Line, £", "money", 1.0),
    Column("In", "tick", 0.4),
)


def build_all(estimate: Estimate) -> tuple[Document, ...]:
    """One order list a supplier, in the order of the suppliers' keys."""
    return tuple(build(estimate, order) for order in estimate.buying.orders)


def build(estimate: Estimate, order: Order) -> Document:
    """The order list for one supplier."""
    supplier, job = order.supplier, estimate.job
    rows = tuple(_row(purchase, pick) for purchase, pick in order.rows)
    needed = measure.show_date(job.terms.start) if job.terms.start else "to be agreed"
    head = Facts(
        (
            ("To", (supplier.name, *lines_of(supplier.address), supplier.phone)),
            ("Account", (supplier.account or "–",)),
            ("Deliver to", (job.client.name, *lines_of(job.client.address))),
            ("Needed by", (needed,)),
        )
    )
    vat = measure.show_money(penny((order.goods + order.carriage) * SUPPLIERS_VAT / 100))
    carriage = "Carriage" if order.carriage else "Carriage, free at this amount"
    blocks = (
        head,
        Table(_COLUMNS, rows, totals=(5,), total_label="Goods, without VAT"),
        Sums(((carriage, order.carriage), ("Without VAT", order.goods + order.carriage))),
        Paragraph(f"VAT as charged by the supplier; at {SUPPLIERS_VAT} % it would be {vat}.", "note"),
        Paragraph("Ask before sending anything else in place of an item: sizes and connections were worked out with these.", "strong"),
        FillIn("Goods in", ("Checked against this list, shortages marked.",), ("By", "Date")),
    )
    return paper(estimate, f"order-{supplier.key}", f"Order list, {supplier.name}", blocks, tables_only=True)


def _row(purchase: Purchase, pick: Pick) -> Row:
    item, offer = purchase.line.item, pick.offer
    return Row(
        (offer.code, item.name, pick.packs, pack_words(item.unit, offer), offer.each(pick.packs), pick.cost, ""), purchase.line.amount.tbc
    )


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


def pack_words(unit: str, offer: object) -> str:
    """What one pack holds, in words: "3,000 mm", "20 kg", "100", "1,200 × 2,400"."""
    length, width, pack = (getattr(offer, name) for name in ("length", "width", "pack"))
    if width:
        return f"{length:,.0f} × {width:,.0f}"
    if length:
        return f"{length:,.0f} mm"
    return f"{pack:,g}" if unit == "each" else f"{pack:,g} {unit}"
