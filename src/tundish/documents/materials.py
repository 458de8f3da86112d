"""The materials list: everything the job needs, why, and where it comes from."""

from __future__ import annotations

from tundish import measure
from tundish.documents.block import Column, Document, Paragraph, Points, Row, Table
from tundish.documents.order_list import pack_words
from tundish.documents.paper import paper
from tundish.estimate import Estimate
from tundish.procurement.purchase import Purchase

_COLUMNS = (
    Column("Item", "text", 2.6),
    Column("Because", "text", 2.6, "quiet"),
    Column("Need", "text", 0.9),
    Column("Kits and stock", "text", 1.0),
    Column("Buy", "text", 1.3, "strong"),
    Column("Cost, £", "money", 0.9),
)


def build(estimate: Estimate) -> Document:
    """The materials list of a job, by group."""
    rows: list[Row] = []
    for group, purchases in grouped(estimate):
        rows.append(Row((group,), group=group))
        rows += [_row(each) for each in purchases]
    left = tuple(
        f"{each.item.name}: {measure.show_amount(each.amount, each.item.unit, with_unit=True)}, {each.why}"
        for each in estimate.buying.left_over
    )
    blocks = (
        Table(_COLUMNS, tuple(rows), totals=(5,), total_label="Cost without VAT"),
        *(
            (Paragraph(f"Not priced: {', '.join(estimate.price.not_priced)}. They are not in the total.", "caution"),)
            if estimate.price.not_priced
            else ()
        ),
        Points("Left over", left or ("Nothing",)),
    )
    return paper(estimate, "materials", "Materials list", blocks, tables_only=True)


def grouped(estimate: Estimate) -> tuple[tuple[str, tuple[Purchase, ...]], ...]:
    """The purchases by the groups of the catalogue, in the order they are first met."""
    groups: dict[str, list[Purchase]] = {}
    for purchase in estimate.buying.purchases:
        groups.setdefault(purchase.line.item.group, []).append(purchase)
    return tuple((name, tuple(rows)) for name, rows in groups.items())


def buy_words(purchase: Purchase) -> str:
    """What is bought, in words: "2 × 3,000 mm", or that there is nothing to buy."""
    if purchase.line.own:
        return "client's own"
    if not purchase.priced:
        return "not priced"
    unit = purchase.line.item.unit
    return " + ".join(f"{pick.packs} × {pack_words(unit, pick.offer)}" for pick in purchase.picks) or "none to buy"


def held(purchase: Purchase) -> float:
    """What kits, rack and stock give, in the line's unit."""
    return purchase.from_kits.value + purchase.from_rack.value + purchase.from_stock.value


def _row(purchase: Purchase) -> Row:
    line = purchase.line
    shown = measure.show_amount(held(purchase), line.amount.unit) if held(purchase) else "–"
    cost = purchase.cost if purchase.picks and purchase.priced else None
    return Row(
        (line.item.name, line.because, measure.show_amount(line.amount.value, line.amount.unit), shown, buy_words(purchase), cost),
        line.amount.tbc,
    )
