"""Ordering: who do I buy from, and by when?"""

from __future__ import annotations

from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QWidget

from tundish import measure
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents.order_list import pack_words
from tundish.estimate import Estimate
from tundish.procurement.purchase import Order

COLUMNS: Final = (
    Column("Item"),
    Column("Their code", 120),
    Column("Packs", 60, right=True),
    Column("Pack of", 110, right=True),
    Column("Pack, £", 84, right=True),
    Column("Line, £", 90, right=True),
)
LAST: Final = len(COLUMNS) - 1


class OrderingPage(EstimatePage):
    """One table a supplier, with carriage and the day it has to be ordered by."""

    help_sentences = ("Each supplier has an order of its own; print it on Paper.", "What kits, the rack and stock give is not ordered.")

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Ordering", "Who do I buy from, and by when?", workspace)
        paper = button("Order lists", "print", main=True)
        paper.clicked.connect(self._paper)
        self.add_tool(paper)
        self.table = Table("Orders", COLUMNS)
        self.table.row_chosen.connect(self._chosen)
        self.table.set_empty("Nothing to buy", "It is all in stock.", "ordering")
        card = TableCard(self.table)
        self._foot = label("", "table")
        card.set_foot(self._foot_row())
        self.set_body(card)
        self.begin()

    def _foot_row(self) -> QWidget:
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(12, 6, 12, 6)
        row.addStretch(1)
        row.addWidget(self._foot)
        return made

    def _paper(self) -> None:
        self._workspace.paper = "orders"
        self.page_asked.emit("paper")

    def _chosen(self, row: str) -> None:
        if row.startswith("line:"):
            self.figure_asked.emit(row.partition("@")[0])

    def show_estimate(self, estimate: Estimate) -> None:
        """One group a supplier, with its carriage."""
        self.table.set_groups(tuple(_group(order, self._workspace.job.terms.start) for order in estimate.buying.orders))
        goods = sum(order.goods for order in estimate.buying.orders)
        carriage = sum(order.carriage for order in estimate.buying.orders)
        count = len(estimate.buying.orders)
        sums = f"goods £{goods:,.2f}, carriage £{carriage:,.2f}, together £{goods + carriage:,.2f} before VAT"
        self._foot.setText(f"{count} orders: {sums}")


def _group(order: Order, start: str) -> Group:
    rows = [
        Row(
            f"line:{purchase.line.item.code}@{place}",
            (
                Cell(purchase.line.item.name, strong=True, glyph="half" if purchase.line.amount.tbc else "", glyph_tone="tbc"),
                Cell(pick.offer.code, tone="ink2"),
                Cell(str(pick.packs), strong=True),
                Cell(pack_words(purchase.line.item.unit, pick.offer), tone="ink2"),
                Cell(measure.show_money(pick.offer.price, sign=False)),
                Cell(measure.show_money(pick.cost, sign=False), strong=True),
            ),
        )
        for place, (purchase, pick) in enumerate(order.rows)
    ]
    carriage = measure.show_money(order.carriage, sign=False) if order.carriage else "free"
    rows.append(Row(f"carriage:{order.supplier.key}", (Cell("Carriage", tone="ink2"), Cell(), Cell(), Cell(), Cell(), Cell(carriage))))
    days = (
        f"order {order.supplier.lead_days} days before {measure.show_date(start, with_year=False)}"
        if start
        else f"{order.supplier.lead_days} days to come"
    )
    total = Cell(measure.show_money(order.goods + order.carriage), strong=True)
    return Group(
        order.supplier.key, order.supplier.name, tuple(rows), f"{len(order.rows)} lines, not sent, {days}", subtotals=((LAST, total),)
    )
