"""Stock: what is on hand and where, the offcuts on the rack, what is short, and the ledger behind it."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import Final

from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import stock_rows
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Column, Group
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.chooser import Chooser
from tundish.desktop.page import Page
from tundish.desktop.pdf_pages import pictures_of
from tundish.desktop.stock_acts import StockActs
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.procurement.outstanding import Short

COLUMNS: Final = (
    Column("Material"),
    Column("Size", 200),
    Column("On hand", 96, right=True),
    Column("Where", 118),
    Column("Kept for", 84),
    Column("Age", 96),
)
HEADS: Final = {
    "held": tuple(each.title for each in COLUMNS),
    "short": ("Material", "For accepted jobs", "On hand", "Short", "Order", ""),
    "moved": ("Material", "What and why", "Amount", "Where", "Kept for", "Day"),
}
EMPTY: Final = {
    "held": ("Nothing in stock", "Offcuts come here from Cutting; count what is on the van below."),
    "short": ("Nothing is short", "No accepted job lacks anything, and nothing is under its level."),
    "moved": ("Nothing has moved", "Whatever comes in, is used or is counted stands here."),
}
VIEWS: Final = (("held", "On hand"), ("short", "Short"), ("moved", "Ledger"))
MOST_NAMED: Final = 3
FIRST_PLACE: Final = "van"


class StockPage(Page):
    """What is there to use before anything is bought."""

    help_sentences = (
        "What is here is used before anything is bought, offcuts first; what is kept for a job is left to it.",
        "Choose a line, type what you counted and why it differs: the difference is kept in the ledger.",
        "Short looks across every job accepted and not done, with what is ordered and the levels you set.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Stock", "What have I got already?")
        self._workspace = workspace
        self._short: tuple[Short, ...] | None = None
        sheet, back = button("Count sheet", "print"), button("Job done", "undo")
        sheet.clicked.connect(self._save_sheet)
        back.clicked.connect(self._put_back)
        prices = button("Price list", "paper")
        prices.clicked.connect(self._price_list)
        many = button("Count many")
        many.clicked.connect(self._count_many)
        self.add_tool(many)
        cut = button("Cut list")
        cut.setToolTip("Plan pieces that belong to no job")
        cut.clicked.connect(self._cut_list)
        self.add_tool(cut)
        catalogue = button("Catalogue", "rules")
        catalogue.clicked.connect(self._catalogue)
        self.add_tool(catalogue)
        self.add_tool(prices)
        self.add_tool(back)
        self.add_tool(sheet)
        self._views = ChipRow("Which stock")
        self._views.set_choices(tuple(Choice(*view) for view in VIEWS), "held")
        self._views.chosen.connect(self._choose_view)
        self.add_row(self._views)
        self.table = Table("Stock", COLUMNS)
        self.table.set_empty(*EMPTY["held"], "stock")
        self.table.row_chosen.connect(self._chosen)
        card = TableCard(self.table)
        self._item = Chooser("Item to count")
        items = workspace.book.items.values()
        self._codes = [item.code for item in sorted(items, key=lambda each: each.name) if item.unit not in {"day", "visit"}]
        self._item.show_choices([workspace.book.item(code).name for code in self._codes], 0)
        self._item.taken.connect(self._item_taken)
        self._holding: tuple[str, str] = (FIRST_PLACE, "")
        self._box, self._why = Box("Counted", figure=True), Box("Why it differs")
        self._level, self._amount = Box("Order again below", figure=True), Box("Amount to order", figure=True)
        self._trouble = label("", "note", "fails", wrap=True)
        self._acts = StockActs(workspace)
        self._acts.done.connect(self._acted)
        card.set_foot(self._foot())
        self.set_body(card)
        self.follow(workspace.estimate_ready, self._show)
        self._show()

    def _foot(self) -> QWidget:
        foot = QWidget()
        column = QVBoxLayout(foot)
        column.setContentsMargins(12, 4, 12, 4)
        row = QHBoxLayout()
        count, level = button("Counted", "tick"), button("Set level")
        count.clicked.connect(self._count)
        level.clicked.connect(self._set_level)
        self._item.setMaximumWidth(200)
        for box in (self._box, self._level, self._amount):
            box.setMaximumWidth(64)
        words = (label("Count", "table"), self._item, self._box, label("because", "table"), self._why, count)
        for widget in (*words, label("order below", "table"), self._level, label("so many", "table"), self._amount, level):
            row.addWidget(widget)
        column.addWidget(self._acts)
        column.addLayout(row)
        column.addWidget(self._trouble)
        return foot

    def _choose_view(self, view: str) -> None:
        self._acts.choose("")
        if view == "short":
            from tundish.store.short import short_of

            store = self._workspace.store
            self._short = None
            self._workspace.aside.ask(lambda: short_of(store), self._show_short, self._trouble.setText)
        self._show()

    def _show_short(self, rows: tuple[Short, ...]) -> None:
        self._short = rows
        self._show()

    def _show(self) -> None:
        from tundish.store.ledger import Ledger

        book, ledger, view = self._workspace.book, Ledger(self._workspace.store), self._views.taken() or "held"
        groups: tuple[Group, ...]
        empty = EMPTY[view]
        if view == "short":
            groups = (stock_rows.short(self._short or (), book),)
            empty = empty if self._short is not None else ("Being worked out", "The needs of every accepted job are added up.")
        elif view == "moved":
            groups = (stock_rows.moved(ledger.movements(), book),)
        else:
            groups = (stock_rows.offcuts(ledger.pieces(), book), stock_rows.counted(ledger.on_hand(), book))
        self.table.set_heads(HEADS[view])
        self.table.set_empty(*empty, "stock")
        self.table.set_groups(tuple(group for group in groups if group.rows))

    def _acted(self, words: str) -> None:
        self._workspace.said.emit(words)
        self._show()

    def _chosen(self, row: str) -> None:
        self._acts.choose(row)
        code, _, rest = row.removeprefix("short:").partition("@")
        if code not in self._codes:
            return
        place, _, job = rest.partition("@")
        self._item.choose(self._workspace.book.item(code).name)
        self._holding = (place or FIRST_PLACE, job)
        self._show_level(code)

    def _item_taken(self, _name: str) -> None:
        self._holding = (FIRST_PLACE, "")
        self._show_level(self._code())

    def _show_level(self, code: str) -> None:
        from tundish.store.ledger import Ledger

        level = Ledger(self._workspace.store).reorders().get(code)
        self._level.show_value(f"{level.level:g}" if level else "")
        self._amount.show_value(f"{level.amount:g}" if level else "")

    def _code(self) -> str:
        return self._codes[max(self._item.currentIndex(), 0)]

    def _count(self) -> None:
        from tundish.store.ledger import Difference, Ledger

        read = measure.read_number(self._box.text())
        if read.value is None or read.value < 0:
            self._trouble.setText(read.problem or "type how many there are")
            return
        self._trouble.setText("")
        ledger, code, (place, job) = Ledger(self._workspace.store), self._code(), self._holding
        said = sum(each.amount for each in ledger.on_hand() if (each.item, each.place, each.job) == (code, place, job))
        ledger.take_stock((Difference(code, place, said, read.value, self._why.text().strip(), job),))
        self._workspace.book_has_changed()
        self._box.show_value("")
        self._why.show_value("")
        self._show()

    def _set_level(self) -> None:
        from tundish.store.ledger import Ledger, Reorder

        level, amount = measure.read_number(self._level.text()), measure.read_number(self._amount.text())
        if level.problem or amount.problem:
            self._trouble.setText(level.problem or amount.problem)
            return
        self._trouble.setText("")
        Ledger(self._workspace.store).set_reorder(Reorder(self._code(), level.value or 0, amount.value or 0))
        self._workspace.said.emit("Kept. Short says when it is under this level")

    def _put_back(self) -> None:
        """The open job is done: what it needed is used, what is left over is free for the next."""
        from tundish.store.short import close_stock

        job, estimate = self._workspace.job_key, self._workspace.estimate
        said = close_stock(self._workspace.store, estimate, job) if estimate is not None and job else ()
        more = len(said) - MOST_NAMED
        words = ", ".join(said[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
        if job:
            self._workspace.set("buying.done", date.today().isoformat())
        self._workspace.said.emit(f"Back in stock: {words}" if said else "Nothing is left over")
        self._workspace.book_has_changed()
        self._show()

    def _count_many(self) -> None:
        self.page_asked.emit("stock_take")

    def _cut_list(self) -> None:
        self.page_asked.emit("cut_list")

    def _catalogue(self) -> None:
        self.page_asked.emit("catalogue")

    def _price_list(self) -> None:
        self.page_asked.emit("prices")

    def _save_sheet(self) -> None:
        from tundish.documents import stock_take
        from tundish.store.ledger import Ledger
        from tundish.writers.pdf import write_pdf

        today = date.today().isoformat()
        ledger = Ledger(self._workspace.store)
        held = tuple(stock_take.Held(each.item, each.place, each.job, each.amount) for each in ledger.on_hand())
        sheet = stock_take.build(self._workspace.book, held, (piece for piece, _ in ledger.pieces()), today)
        name, _ = QFileDialog.getSaveFileName(self, "Save the stock-take sheet", f"{sheet.name}.pdf", "PDF (*.pdf)")
        if name:
            pictures = pictures_of(self._workspace.store, self._workspace.job_id)
            write_pdf(sheet, Path(name), datetime.now().strftime("%Y-%m-%d %H:%M"), pictures)
            self._workspace.said.emit(f"Saved: {Path(name).name}")
