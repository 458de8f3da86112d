"""Catalogue: what can be bought, in what sizes, from whom?"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.item_form import ItemForm
from tundish.desktop.item_papers import ItemPapers
from tundish.desktop.page import Page
from tundish.desktop.tables import TWO_LINES, Table, TableCard
from tundish.desktop.unkept import NOT_KEPT, Unkept
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.errors import TundishError

if TYPE_CHECKING:
    from tundish.catalogue.sheets import Sheets
    from tundish.field import Problem
    from tundish.store.catalogue import ItemRows

COLUMNS: Final = (Column("Item"),)
MOST_ROWS: Final = 300
MOST_PROBLEMS: Final = 6
MOST_PRICES: Final = 3


class CataloguePage(Page):
    """Items found as you type; the one chosen beside them, to be changed."""

    help_sentences = (
        "Type part of a name, a code or a supplier's code. Choose an item and change what you like; Keep takes it in.",
        "What is wrong is said in words, and then nothing is changed.",
        "Save the whole catalogue as a spreadsheet, work on it there, and open it again. Undo opening puts the one before back.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Catalogue", "What can I buy, in what sizes, from whom?")
        self._workspace, self._was = workspace, ""
        self._unkept: Unkept[ItemRows] = Unkept()
        self.finder = Box("Find an item")
        self.finder.setPlaceholderText("Find an item: name, code, supplier's code")
        self.finder.textChanged.connect(self._show_found)
        back = button("Undo opening", "undo")
        back.clicked.connect(self._undo)
        first = QWidget()
        row = QHBoxLayout(first)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.finder, 1)
        row.addWidget(back)
        self.add_row(first)
        tools = (
            (button("Open file"), self._open),
            (button("Open folder"), self._open_folder),
            (button("Save spreadsheet", "paper"), self._save),
            (button("Save CSV"), self._save_folder),
            (button("New item", main=True), self._new),
        )
        for tool, does in tools:
            tool.clicked.connect(does)
            self.add_tool(tool)
        self.table = Table("Items", COLUMNS, row_high=TWO_LINES)
        self.table.row_chosen.connect(self._chosen)
        self.table.set_empty("Nothing found", "Parts of words will do: pan 360, strut, CP10.", "find")
        self.form, self.papers = ItemForm(), ItemPapers(workspace.store)
        self.papers.said.connect(self._say)
        self._said = label("", "note", "fails", wrap=True)
        self._keep, self._remove = button("Keep", "tick", main=True), button("Take it out")
        self._back = button("Put back", "undo")
        self.set_body(self._halves())
        self._show_found("")
        self._new()

    def open_item(self, code: str) -> None:
        """Show one item."""
        if code in self._workspace.book.items:
            self.finder.setText("")
            self.table.choose(code)
            self._chosen(code)

    def _halves(self) -> QWidget:
        made, side, scroll = QWidget(), QFrame(), QScrollArea()
        side.setProperty("kind", "card")
        self.form.setProperty("kind", "clear")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        column, acts = QVBoxLayout(side), QHBoxLayout()
        column.setContentsMargins(1, 1, 1, 1)
        acts.setContentsMargins(12, 4, 12, 6)
        for tool, does in ((self._keep, self._take), (self._back, self._put_back), (self._remove, self._take_out)):
            tool.clicked.connect(does)
        acts.addWidget(self._said, 1)
        acts.addWidget(self._remove)
        acts.addWidget(self._back)
        acts.addWidget(self._keep)
        column.addWidget(scroll, 1)
        column.addWidget(self.papers)
        column.addLayout(acts)
        row = QHBoxLayout(made)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(TableCard(self.table), 4)
        row.addWidget(side, 7)
        return made

    def _show_found(self, typed: str) -> None:
        from tundish.store.offer_search import find_offers

        words, items = typed.lower().split(), self._workspace.book.items
        codes = [
            code
            for code, item in sorted(items.items(), key=lambda pair: pair[1].name)
            if all(word in f"{item.name} {code} {item.kind}".lower() for word in words)
        ]
        codes += [each.item for each in find_offers(self._workspace.store, typed) if each.item in items]
        shown = tuple(dict.fromkeys(codes))[:MOST_ROWS]
        self.table.set_rows(tuple(Row(code, (Cell(items[code].name, strong=True, below=f"{items[code].kind}, {code}"),)) for code in shown))

    def _chosen(self, code: str) -> None:
        from tundish.store.catalogue import rows_of

        if code in self._workspace.book.items:
            self._unkept.leave(self.form.rows())
            self._show_item(code, rows_of(self._workspace.book, code))

    def _show_item(self, code: str, rows: ItemRows) -> None:
        """Show an item, or a new one, as it is kept; then what was typed for it before and not kept."""
        self._was = code
        before = self._prices_before(code)
        self.form.show_item(rows, new=not code, before=before)
        typed = self._unkept.show(code, self.form.rows())
        if typed is not None:
            self.form.show_item(typed, new=not code, before=before)
        self.papers.show_item(code)
        self._remove.setEnabled(bool(code))
        self._say(NOT_KEPT if typed is not None else "")

    def _prices_before(self, code: str) -> str:
        """What each supplier asked for it before its last price lists, and from when."""
        from tundish.store.price_list import old_prices

        lines = []
        for offer in self._workspace.book.offers.get(code, ()):
            old = old_prices(self._workspace.store, offer.supplier, offer.code)
            was = ", ".join(f"{measure.show_money(price)} from {measure.show_date(day)}" for day, price in old[-MOST_PRICES:])
            if was:
                lines.append(f"{self._workspace.book.suppliers[offer.supplier].name} {offer.code} was {was}")
        return "; ".join(lines)

    def _new(self) -> None:
        from tundish.store.catalogue import ItemRows

        if self._was:
            self._unkept.leave(self.form.rows())
        self._show_item("", ItemRows({}))

    def _put_back(self) -> None:
        """Show the item as it is kept, without what was typed."""
        self._unkept.forget()
        if self._was:
            self._chosen(self._was)
        else:
            self._new()

    def _take(self) -> None:
        from tundish.store.catalogue import keep_item

        rows = self.form.rows()
        problems = keep_item(self._workspace.store, rows, self._was)
        if problems:
            self._tell(problems)
            return
        self._unkept.forget()
        self._changed(rows.item["code"])
        self._workspace.said.emit(f"{rows.item['name']} is kept")

    def _take_out(self) -> None:
        from tundish.store.catalogue import remove_item

        words = remove_item(self._workspace.store, self._was)
        if words:
            self._say(words)
            return
        self._was = ""
        self._changed("")
        self._new()

    def _changed(self, code: str) -> None:
        self._workspace.book_has_changed()
        self._show_found(self.finder.text())
        if code:
            self.table.choose(code)
            self._chosen(code)

    def _save(self) -> None:
        name, _ = QFileDialog.getSaveFileName(self, "Save the catalogue", "Catalogue.xlsx", "Spreadsheet (*.xlsx)")
        if name:
            self._write(Path(name).with_suffix(".xlsx"))

    def _save_folder(self) -> None:
        name = QFileDialog.getExistingDirectory(self, "Folder for the CSV files of the catalogue")
        if name:
            self._write(Path(name))

    def _write(self, path: Path) -> None:
        from tundish.store.catalogue import sheets_of
        from tundish.store.catalogue_file import write_catalogue

        store = self._workspace.store

        def written() -> str:
            write_catalogue(sheets_of(store), path)
            return f"Saved: {path.name}"

        self._workspace.aside.ask(written, self._workspace.said.emit, self._say)

    def _open(self) -> None:
        name, _ = QFileDialog.getOpenFileName(self, "Open a catalogue", "", "Spreadsheet (*.xlsx)")
        if name:
            self._read(Path(name))

    def _open_folder(self) -> None:
        name = QFileDialog.getExistingDirectory(self, "Folder with the CSV files of a catalogue")
        if name:
            self._read(Path(name))

    def _read(self, path: Path) -> None:
        from tundish.store.catalogue_file import read_catalogue

        self._say(f"Reading {path.name}")
        self._workspace.aside.ask(lambda: read_catalogue(path), self._put_in_place, self._say)

    def _put_in_place(self, sheets: Sheets) -> None:
        from tundish.store.catalogue import replace_all

        try:
            problems = replace_all(self._workspace.store, sheets)
        except TundishError as fault:
            self._say(str(fault))
            return
        if problems:
            self._tell(problems)
            return
        self._replaced("The catalogue is as in the file")

    def _undo(self) -> None:
        from tundish.store.catalogue import undo_replace

        try:
            why = undo_replace(self._workspace.store)
        except TundishError as fault:
            why = str(fault)
        if why:
            self._say(why)
        else:
            self._replaced("The catalogue is as it was")

    def _replaced(self, words: str) -> None:
        self._say("")
        self._changed("")
        if self._was in self._workspace.book.items:
            self.open_item(self._was)
        self._workspace.said.emit(words)

    def _tell(self, problems: tuple[Problem, ...]) -> None:
        more = len(problems) - MOST_PROBLEMS
        words = "; ".join(f"{each.path}: {each.text}" for each in problems[:MOST_PROBLEMS])
        self._say(f"Nothing was changed. {words}{f'; and {more} more' if more > 0 else ''}.")

    def _say(self, words: str) -> None:
        self._said.setText(words)
