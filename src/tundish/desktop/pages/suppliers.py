"""Suppliers: who do I buy from, and on what terms?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QModelIndex
from PySide6.QtWidgets import QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.flow import Flow
from tundish.desktop.page import Page
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.unkept import NOT_KEPT, Unkept
from tundish.desktop.words import button, label, named
from tundish.desktop.workspace import Workspace

if TYPE_CHECKING:
    from tundish.catalogue.item import Supplier

COLUMNS: Final = (
    Column("Supplier"),
    Column("Account", 110),
    Column("Carriage, £", 90, right=True),
    Column("Free above, £", 104, right=True),
    Column("Days", 56, right=True),
    Column("Offers", 70, right=True),
    Column("State", 150),
)
TERMS: Final = (
    ("name", "Name", 230),
    ("account", "Account", 110),
    ("phone", "Telephone", 120),
    ("address", "Address", 250),
    ("carriage", "Carriage, £", 66),
    ("free_above", "Free above, £", 70),
    ("lead_days", "Days to come", 44),
)
LISTED: Final = (("code", "Code"), ("price", "Price"), ("pack", "Pack of"), ("least", "Least"), ("item", "Item"))
FIGURES: Final = frozenset({"carriage", "free_above", "lead_days"})
Words = tuple[dict[str, str], dict[str, str]]
"""A supplier as it is typed: its own boxes, then the heads of its price list."""
HEAD: Final = 92
"""Width of a box for the head of a price list's column, pixels at 100 %."""


class SuppliersPage(Page):
    """Every supplier with its terms; the one chosen below, to be changed, or a new one."""

    help_sentences = (
        "Choose a supplier and change what you like; Keep takes it in, and orders reckon with it at once. New supplier begins another.",
        "Buy from no more leaves its offers, prices and orders as they are, and it can be bought from again.",
        "Heads of its price list: blank where they are the usual ones, – where the list has no such column.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Suppliers", "Who do I buy from, and on what terms?")
        self._workspace, self._was = workspace, ""
        self._unkept: Unkept[Words] = Unkept()
        self._out, new, back = button("Buy from no more"), button("New supplier", "add"), button("Put back", "undo")
        self._keep = button("Keep", "tick", main=True)
        for tool, does in ((new, self._new), (self._out, self._take_out), (back, self._put_back), (self._keep, self._take)):
            tool.clicked.connect(does)
            self.add_tool(tool)
        self.table = Table("Suppliers", COLUMNS)
        self.table.row_chosen.connect(self._chosen)
        self.table.set_empty("No suppliers", "Type one below and keep it.", "ordering")
        self._boxes = {key: Box(words, figure=key in FIGURES) for key, words, _ in TERMS}
        self._heads = {key: Box(f"{words} is under") for key, words in LISTED}
        self._said = label("", "note", "fails", wrap=True)
        self._said.hide()
        card = TableCard(self.table)
        card.set_foot(self._foot())
        self.set_body(card)
        self._show()
        self._begin()

    def _begin(self) -> None:
        """The first supplier is shown, or room for one."""
        first = next((each.id for each in self.table.table_model.entries() if isinstance(each, Row)), "")
        if first:
            self.table.choose(first)
            self._chosen(first)
        else:
            self._new()

    def _foot(self) -> QWidget:
        px = look.now().px
        for key, _, wide in TERMS:
            self._boxes[key].setFixedWidth(px(wide))
        for box in self._heads.values():
            box.setFixedWidth(px(HEAD))
        made = QWidget()
        column = QVBoxLayout(made)
        column.setContentsMargins(12, 6, 12, 6)
        column.addWidget(Flow([named(words, self._boxes[key]) for key, words, _ in TERMS], above=0))
        column.addWidget(label("Heads of its price list", "tableStrong"))
        column.addWidget(Flow([named(words, self._heads[key]) for key, words in LISTED], above=0))
        column.addWidget(self._said)
        return made

    def _show(self) -> None:
        book = self._workspace.book
        counts = dict.fromkeys(book.suppliers, 0)
        for offers in book.offers.values():
            for each in offers:
                counts[each.supplier] = counts.get(each.supplier, 0) + 1
        rows = sorted(book.suppliers.values(), key=lambda one: (one.key in book.never, one.name.lower()))
        self.table.set_rows(tuple(_row(one, counts[one.key], out=one.key in book.never) for one in rows))

    def _chosen(self, key: str) -> None:
        from tundish.store.price_list import columns_of
        from tundish.store.suppliers import cells_of, typed_columns

        if key in self._workspace.book.suppliers:
            self._unkept.leave(self._words())
            self._show_one(key, (cells_of(self._workspace.book.suppliers[key]), typed_columns(columns_of(self._workspace.store, key))))

    def _new(self) -> None:
        if self._was:
            self._unkept.leave(self._words())
        self.table.setCurrentIndex(QModelIndex())
        self._show_one("", ({}, {}))
        self._boxes["name"].setFocus()

    def _put_back(self) -> None:
        """Show the supplier as it is kept, without what was typed."""
        self._unkept.forget()
        if self._was:
            self._chosen(self._was)
        else:
            self._new()

    def _show_one(self, key: str, words: Words) -> None:
        """Show a supplier, or a new one, as it is kept; then what was typed for it before and not kept."""
        self._was = key
        self._fill(words)
        typed = self._unkept.show(key, self._words())
        if typed is not None:
            self._fill(typed)
        out = key in self._workspace.book.never
        self._out.setText("Buy from again" if out else "Buy from no more")
        self._out.setAccessibleName(self._out.text())
        self._out.setEnabled(bool(key))
        self._say(NOT_KEPT if typed is not None else "")

    def _words(self) -> Words:
        """What stands in the boxes: the supplier's own, and the heads of its price list."""
        own, heads = ({key: box.text() for key, box in boxes.items()} for boxes in (self._boxes, self._heads))
        return own, heads

    def _fill(self, words: Words) -> None:
        for boxes, values in zip((self._boxes, self._heads), words, strict=True):
            for key, box in boxes.items():
                box.setModified(False)
                box.show_value(values.get(key, ""))
                box.setCursorPosition(0)

    def _take(self) -> None:
        from tundish.store.suppliers import keep_supplier, keep_typed_columns, wrong_columns

        own, columns = self._words()
        why = wrong_columns(columns)
        if why:
            self._say(f"Nothing was changed. {why}.")
            return
        key, problems = keep_supplier(self._workspace.store, own, self._was)
        if problems:
            self._say(f"Nothing was changed. {'; '.join(each.text for each in problems)}.")
            return
        keep_typed_columns(self._workspace.store, key, columns)
        self._unkept.forget()
        self._changed(key, f"{self._boxes['name'].text().strip()} is kept")

    def _take_out(self) -> None:
        from tundish.store.suppliers import take_back, take_out

        key, name = self._was, self._workspace.book.suppliers[self._was].name
        if key in self._workspace.book.never:
            take_back(self._workspace.store, key)
            self._changed(key, f"{name} is bought from again")
        elif take_out(self._workspace.store, key):
            self._changed("", f"{name} is gone: it sold nothing and was sent no order")
        else:
            self._changed(key, f"{name} is bought from no more; its offers, prices and orders stay")

    def _changed(self, key: str, words: str) -> None:
        self._workspace.book_has_changed()
        self._show()
        if key:
            self.table.choose(key)
            self._chosen(key)
        else:
            self._begin()
        self._workspace.said.emit(words)

    def _say(self, words: str) -> None:
        self._said.setText(words)
        self._said.setVisible(bool(words))


def _row(one: Supplier, offers: int, *, out: bool) -> Row:
    free = measure.show_money(one.free_above, sign=False) if one.free_above else ""
    carriage = measure.show_money(one.carriage, sign=False) if one.carriage else "free"
    state = Cell("bought from no more", tone="ink2") if out else Cell("bought from", tone="settled", glyph="tick")
    return Row(
        one.key,
        (
            Cell(one.name, strong=not out, tone="ink2" if out else "ink"),
            Cell(one.account, tone="ink2"),
            Cell(carriage),
            Cell(free),
            Cell(str(one.lead_days)),
            Cell(f"{offers:,}"),
            state,
        ),
    )
