"""Price list: what would it change, and shall it be taken in?"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QWidget

from tundish.desktop.boxes import Box
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.chooser import Chooser
from tundish.desktop.page import Page
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.errors import TundishError

if TYPE_CHECKING:
    from tundish.store.price_list import Fate, Preview

COLUMNS: Final = (Column("Their code", 160), Column("What becomes of it"), Column("Row", 70, right=True))
FATES: Final = (
    ("changed", "Changed", "ink"),
    ("new", "New", "settled"),
    ("refused", "Refused", "fails"),
    ("unchanged", "Unchanged", "ink2"),
)
MOST_ROWS: Final = 2000


class PricesPage(Page):
    """A supplier's list looked at row by row, then taken in whole, or not at all."""

    help_sentences = (
        "CSV, XLSX or ODS. Nothing is changed until you take it in, and then all of it or nothing.",
        "Name the heads over code and price once for each supplier; they are remembered.",
        "Undo puts the old prices back.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Price list", "What would it change?")
        self._workspace = workspace
        self._preview: Preview | None = None
        self._path: Path | None = None
        self._keys = sorted(workspace.book.suppliers)
        self._supplier = Chooser("Supplier")
        self._supplier.show_choices([workspace.book.suppliers[key].name for key in self._keys], 0)
        self._code, self._price = Box("Code is under"), Box("Price is under")
        self._open, self._take = button("Open a list", "paper"), button("Take it in", "tick", main=True)
        undo = button("Undo the last", "undo")
        for tool, does in ((undo, self._undo), (self._open, self._choose), (self._take, self._take_in)):
            tool.clicked.connect(does)
            self.add_tool(tool)
        self.add_row(self._boxes())
        self.table = Table("Rows of the list", COLUMNS)
        self.table.set_empty("No list is open", "Choose the supplier and open the list that came.", "paper")
        card = TableCard(self.table)
        self._said = label("", "table", wrap=True)
        foot = QWidget()
        row = QHBoxLayout(foot)
        row.setContentsMargins(12, 6, 12, 6)
        row.addWidget(self._said, 1)
        card.set_foot(foot)
        self.set_body(card)
        self._take.setEnabled(False)

    def _boxes(self) -> QWidget:
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(8, 0, 8, 0)
        for box in (self._code, self._price):
            box.setMaximumWidth(150)
            box.taken.connect(self._look_again)
        for part in (self._supplier, label("code is under", "table"), self._code, label("price is under", "table"), self._price):
            row.addWidget(part)
        row.addStretch(1)
        return made

    def look(self, path: Path) -> None:
        """Look at a list in the background, and show what becomes of every row."""
        from tundish.store.price_list import look_at

        self._path = path
        heads = {name: words for name, box in (("code", self._code), ("price", self._price)) if (words := box.text().strip())}
        store, key = self._workspace.store, self._key()
        self._said.setText(f"Reading {path.name}")
        self._workspace.aside.ask(lambda: look_at(store, path, key, heads), self._show, self._failed)

    def _key(self) -> str:
        return self._keys[max(self._supplier.currentIndex(), 0)]

    def _choose(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self, "Open a price list", "", "Price lists (*.csv *.txt *.xlsx *.ods *.xls);;All files (*)")
        if name:
            self.look(Path(name))

    def _look_again(self, _words: str) -> None:
        if self._path is not None:
            self.look(self._path)

    def _failed(self, words: str) -> None:
        self._preview = None
        self.table.set_groups(())
        self._said.setText(words)
        self._take.setEnabled(False)

    def _show(self, preview: Preview) -> None:
        self._preview = preview
        groups = []
        for fate, title, tone in FATES:
            rows = [each for each in preview.fates if each.fate == fate]
            if rows:
                more = f", the first {MOST_ROWS:,} shown" if len(rows) > MOST_ROWS else ""
                groups.append(Group(fate, title, tuple(_row(each, tone) for each in rows[:MOST_ROWS]), f"{len(rows):,} rows{more}"))
        self.table.set_groups(tuple(groups))
        counts = f"{preview.count('changed')} change, {preview.count('new')} new, {preview.count('refused')} refused"
        self._said.setText(f"{preview.file}: {counts}, {preview.count('not used'):,} for things you do not keep")
        self._take.setEnabled(preview.count("changed") + preview.count("new") > 0)

    def _take_in(self) -> None:
        from tundish.store.price_list import take_in

        if self._preview is not None:
            take_in(self._workspace.store, self._preview)
            self._said.setText(f"{self._preview.file} is taken in; the old prices are kept")
            self._take.setEnabled(False)
            self._workspace.book_has_changed()

    def _undo(self) -> None:
        from tundish.store.price_list import undo

        try:
            count = undo(self._workspace.store, self._key())
        except TundishError as fault:
            self._said.setText(str(fault))
            return
        self._said.setText(f"{count} prices are as they were")
        self._workspace.book_has_changed()


def _row(fate: Fate, tone: str) -> Row:
    return Row(
        f"row:{fate.row}", (Cell(fate.code or "–", strong=True), Cell(fate.why or fate.fate, tone=tone), Cell(str(fate.row), tone="ink2"))
    )
