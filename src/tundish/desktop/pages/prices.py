"""Price list: what would it change, and shall it be taken in?"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.chooser import Chooser
from tundish.desktop.page import Page
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace

if TYPE_CHECKING:
    from tundish.store.price_fates import Fate
    from tundish.store.price_list import Preview

COLUMNS: Final = (Column("Their code", 160), Column("What becomes of it"), Column("Row", 70, right=True))
FATES: Final = (
    ("changed", "Changed", "ink"),
    ("new", "New", "settled"),
    ("refused", "Refused", "fails"),
    ("unchanged", "Unchanged", "ink2"),
    ("not used", "For things you do not keep", "ink2"),
)
MAPPED: Final = {"code": "Code", "price": "Price", "pack": "Pack of", "least": "Least", "item": "Item"}
"""What a list may say, by the words it is asked for with; "item" is your own code for it."""
NOT_THERE: Final = "not in the list"
MOST_ROWS: Final = 2000


class PricesPage(Page):
    """A supplier's list looked at row by row, then taken in whole, or not at all."""

    help_sentences = (
        "CSV, XLSX or ODS. Nothing is changed until you take it in, and then all of it or nothing.",
        "Say once for each supplier which column is what; it is remembered when the list is taken in.",
        "Undo puts the old prices back.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Price list", "What would it change?")
        self._workspace = workspace
        self._preview: Preview | None = None
        self._turn = 0
        self._path: Path | None = None
        self._keys: list[str] = []
        self._supplier = Chooser("Supplier")
        self._supplier.activated.connect(self._other_supplier)
        self._heads: tuple[str, ...] = ()
        self._maps = {key: Chooser(f"{words} is under") for key, words in MAPPED.items()}
        self._open, self._take = button("Open a list", "paper"), button("Take it in", "tick", main=True)
        self._back, suppliers = button("Undo the last", "undo"), button("Suppliers")
        for tool, does in ((suppliers, self._suppliers), (self._back, self._undo), (self._open, self._choose), (self._take, self._take_in)):
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
        self._show_suppliers()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._show_suppliers()

    def _show_suppliers(self) -> None:
        """Who is bought from now; the one chosen stays chosen."""
        book, chosen = self._workspace.book, self._key() if self._keys else ""
        self._keys = sorted((key for key in book.suppliers if key not in book.never), key=lambda key: book.suppliers[key].name.lower())
        self._supplier.show_choices(
            [book.suppliers[key].name for key in self._keys], self._keys.index(chosen) if chosen in self._keys else 0
        )
        self._open.setEnabled(bool(self._keys))
        self._back.setEnabled(bool(self._keys))

    def _suppliers(self) -> None:
        self.page_asked.emit("suppliers")

    def _boxes(self) -> QWidget:
        made = QWidget()
        column = QVBoxLayout(made)
        column.setContentsMargins(8, 0, 8, 0)
        first, second = QHBoxLayout(), QHBoxLayout()
        first.addWidget(label("List of", "table"))
        first.addWidget(self._supplier)
        first.addStretch(1)
        for key, words in MAPPED.items():
            box = self._maps[key]
            box.show_choices([NOT_THERE], 0)
            box.setMaximumWidth(150)
            box.activated.connect(self._look_again)
            second.addWidget(label(words, "table", "ink2"))
            second.addWidget(box, 1)
        column.addLayout(first)
        column.addLayout(second)
        return made

    def look(self, path: Path) -> None:
        """Look at a list in the background: what columns it has, and what becomes of every row as they are remembered or known."""
        from tundish.store.price_list import columns_of, heads_in

        self._path = path
        self._nothing_to_take()
        store, key = self._workspace.store, self._key()
        self._said.setText(f"Reading {path.name}")
        self._workspace.aside.ask(lambda: (heads_in(path), columns_of(store, key)), self._map, self._failed)

    def _map(self, found: tuple[tuple[str, ...], dict[str, str]]) -> None:
        """Offer the heads of the list for each thing it may say, the remembered or the known one chosen."""
        from tundish.store.price_fates import COLUMNS as KNOWN

        self._heads, remembered = found
        lowered = [head.lower() for head in self._heads]
        for key, box in self._maps.items():
            words = (remembered[key].lower(),) if key in remembered else KNOWN[key]
            place = next((lowered.index(word) for word in words if word in lowered), -1)
            box.show_choices([NOT_THERE, *self._heads], place + 1)
        self._look_again()

    def _look_again(self, *_said: object) -> None:
        from tundish.store.price_list import look_at

        if self._path is None:
            return
        turn = self._nothing_to_take()
        columns = {key: self._heads[box.currentIndex() - 1] if box.currentIndex() > 0 else "" for key, box in self._maps.items()}
        missing = [MAPPED[key].lower() for key in ("code", "price") if not columns[key]]
        if missing:
            self._failed(f"Say which column of {self._path.name} is the {' and which the '.join(missing)}.")
            return
        store, supplier, path = self._workspace.store, self._key(), self._path

        def take(preview: Preview) -> None:
            if turn == self._turn:
                self._show(preview)

        self._workspace.aside.ask(lambda: look_at(store, path, supplier, columns), take, self._failed)

    def _nothing_to_take(self) -> int:
        """What was looked at before is not what is chosen now: it cannot be taken in, and its answer comes too late."""
        self._turn += 1
        self._preview = None
        self._take.setEnabled(False)
        return self._turn

    def _other_supplier(self, _place: int) -> None:
        if self._path is not None:
            self.look(self._path)

    def _key(self) -> str:
        return self._keys[max(self._supplier.currentIndex(), 0)]

    def _choose(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self, "Open a price list", "", "Price lists (*.csv *.txt *.xlsx *.ods *.xls);;All files (*)")
        if name:
            self.look(Path(name))

    def _failed(self, words: str) -> None:
        self._preview = None
        self.table.set_groups(())
        if self._path is not None:
            self.table.set_empty(self._path.name, words, "paper")
        self._said.setText(words)
        self._take.setEnabled(False)

    def _show(self, preview: Preview) -> None:
        self._preview = preview
        groups = []
        for fate, title, tone in FATES:
            count = preview.count(fate)
            if count:
                more = f", the first {MOST_ROWS:,} shown" if count > MOST_ROWS else ""
                words = f"{count:,} {'row' if count == 1 else 'rows'}{more}"
                groups.append(Group(fate, title, tuple(_row(each, tone) for each in preview.of(fate, MOST_ROWS)), words))
        self.table.set_groups(tuple(groups))
        counts = f"{preview.count('changed')} change, {preview.count('new')} new, {preview.count('refused')} refused"
        self._said.setText(f"{preview.file}: {counts}, {preview.count('not used'):,} for things you do not keep")
        self._take.setEnabled(preview.count("changed") + preview.count("new") > 0)

    def _take_in(self) -> None:
        from tundish.store.price_list import take_in

        preview, store = self._preview, self._workspace.store
        if preview is None:
            return
        self._nothing_to_take()
        self._said.setText(f"Taking {preview.file} in")
        self._workspace.aside.ask(
            lambda: take_in(store, preview), lambda _: self._changed(f"{preview.file} is taken in; the old prices are kept"), self._failed
        )

    def _undo(self) -> None:
        from tundish.store.price_list import undo

        store, key = self._workspace.store, self._key()
        self._back.setEnabled(False)
        self._said.setText("Putting the old prices back")
        self._workspace.aside.ask(lambda: undo(store, key), self._undone, self._not_undone)

    def _undone(self, count: int) -> None:
        self._back.setEnabled(True)
        self._changed(f"{count:,} prices are as they were" if count != 1 else "One price is as it was")

    def _not_undone(self, words: str) -> None:
        self._back.setEnabled(True)
        self._said.setText(words)

    def _changed(self, words: str) -> None:
        self._said.setText(words)
        self._workspace.book_has_changed()


def _row(fate: Fate, tone: str) -> Row:
    return Row(
        f"row:{fate.row}", (Cell(fate.code or "–", strong=True), Cell(fate.why or fate.fate, tone=tone), Cell(str(fate.row), tone="ink2"))
    )
