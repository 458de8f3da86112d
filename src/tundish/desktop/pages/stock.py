"""Stock: what is on the van, and the offcuts on the rack."""

from __future__ import annotations

from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QWidget

from tundish import measure
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.chooser import Chooser
from tundish.desktop.page import Page
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace

COLUMNS: Final = (Column("Material"), Column("Size", 190), Column("On hand", 110, right=True), Column("Where", 130))
OFFCUTS: Final = "Offcuts on the rack"
COUNTED: Final = "On hand"


class StockPage(Page):
    """What is there to use before anything is bought."""

    help_sentences = (
        "What is here is used before anything is bought, offcuts first.",
        "Count again at any time: the difference is kept as a stock-take.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Stock", "What have I got already?")
        self._workspace = workspace
        self.table = Table("Stock", COLUMNS)
        self.table.set_empty("Nothing in stock", "Offcuts come here from Cutting; count what is on the van below.", "stock")
        self.table.row_chosen.connect(self._chosen)
        card = TableCard(self.table)
        self._item = Chooser("Item to count")
        items = workspace.book.items.values()
        self._codes = [item.code for item in sorted(items, key=lambda each: each.name) if item.unit == "each"]
        self._item.show_choices([workspace.book.item(code).name for code in self._codes], 0)
        self._box = Box("Counted", figure=True)
        self._trouble = label("", "note", "fails")
        count = button("Counted", "tick")
        count.clicked.connect(self._count)
        foot = QWidget()
        row = QHBoxLayout(foot)
        row.setContentsMargins(12, 4, 12, 4)
        for widget in (label("Count", "table"), self._item, self._box, count, self._trouble):
            row.addWidget(widget)
        row.addStretch(1)
        self._box.setMaximumWidth(80)
        card.set_foot(foot)
        self.set_body(card)
        self.follow(workspace.estimate_ready, self._show)
        self._show()

    def _show(self) -> None:
        book = self._workspace.book
        counted = [
            Row(
                code,
                (
                    Cell(book.item(code).name, strong=True),
                    Cell("–", tone="ink2"),
                    Cell(measure.show_amount(amount, book.item(code).unit), strong=True),
                    Cell("van", tone="ink2"),
                ),
            )
            for code, amount in sorted(book.stock.items())
            if code in book.items
        ]
        offcuts = [
            Row(
                f"rack {piece.key}",
                (
                    Cell(book.item(piece.item).name, strong=True),
                    Cell(f"{piece.length:,.0f}" + (f" × {piece.width:,.0f}" if piece.width else "")),
                    Cell("1"),
                    Cell(f"{piece.place}, {piece.key}", tone="ink2"),
                ),
            )
            for piece in book.rack
            if piece.item in book.items
        ]
        groups = (Group("offcuts", OFFCUTS, tuple(offcuts)), Group("counted", COUNTED, tuple(counted)))
        self.table.set_groups(tuple(group for group in groups if group.rows))

    def _chosen(self, row: str) -> None:
        if row in self._codes:
            self._item.choose(self._workspace.book.item(row).name)

    def _count(self) -> None:
        read = measure.read_number(self._box.text())
        if read.value is None or read.value < 0:
            self._trouble.setText(read.problem or "type how many there are")
            return
        self._trouble.setText("")
        code = self._codes[max(self._item.currentIndex(), 0)]
        difference = read.value - self._workspace.book.stock.get(code, 0.0)
        if difference:
            from tundish.store.ledger import Ledger

            Ledger(self._workspace.store).move(code, difference, "stock-take")
            self._workspace.book_has_changed()
        self._box.show_value("")
        self._show()
