"""The row under the materials list in which a line is added, set, struck out or put back by hand."""

from __future__ import annotations

from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Cell, Group, Row
from tundish.desktop.chooser import Chooser
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents.materials import by_hand_words
from tundish.documents.order_list import amount_words
from tundish.field import Entry
from tundish.figure import Known
from tundish.takeoff.by_hand import ADDS, SETS, STRIKES, ByHand, LineByHand

KEY = "hand:"
AMOUNT, REASON = "amount", "reason"


class ByHandRow(QWidget):
    """An item, an amount and a reason, and what to do with them; each press is one step that can be undone."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self._workspace = workspace
        self._row = -1
        self._codes: list[str] = []
        self._item, self._amount, self._why = Chooser("Item by hand"), Box("Amount by hand", figure=True), Box("Why by hand")
        self._trouble = label("", "note", "fails", wrap=True)
        self._trouble.hide()
        self._back = button("Put back")
        self._back.clicked.connect(self._put_back)
        self._back.setEnabled(False)
        column, row = QVBoxLayout(self), QHBoxLayout()
        column.setContentsMargins(12, 0, 12, 6)
        self._item.setMaximumWidth(look.now().px(230))
        self._amount.setMaximumWidth(look.now().px(80))
        for widget in (label("By hand", "table"), self._item, self._amount, label("because", "table"), self._why):
            row.addWidget(widget)
        for words, does in (("Add", ADDS), ("Set", SETS), ("Strike out", STRIKES)):
            tool = button(words)
            tool.clicked.connect(lambda _=False, does=does: self._change(does))
            row.addWidget(tool)
        row.addWidget(self._back)
        column.addLayout(row)
        column.addWidget(self._trouble)

    def show_items(self) -> None:
        """Every item of the book by its name; the one chosen stays."""
        items = sorted(self._workspace.book.items.values(), key=lambda each: each.name)
        codes = [each.code for each in items]
        if codes != self._codes:
            chosen = self._code()
            self._codes = codes
            self._item.show_choices([each.name for each in items], codes.index(chosen) if chosen in codes else 0)

    def line_chosen(self, key: str) -> None:
        """A row of the list was chosen: a line, or a change by hand; what was changed last of it can be put back."""
        rows = self._workspace.job.by_hand
        row = int(key.removeprefix(KEY)) if key.startswith(KEY) else -1
        code = rows[row].item.strip() if 0 <= row < len(rows) else key.removeprefix("line:")
        changed = (place for place, each in enumerate(rows) if each.item.strip() == code)
        self._row = row if row >= 0 else max(changed, default=-1)
        self._back.setEnabled(self._row >= 0)
        if code in self._codes:
            self._item.setCurrentIndex(self._codes.index(code))

    def ask(self, box: str) -> None:
        """The keyboard goes to the amount of a line to be added, or to the reason why one is struck out."""
        self._say("" if box == AMOUNT else "say why it is struck out, then press Strike out")
        (self._amount if box == AMOUNT else self._why).setFocus()

    def _code(self) -> str:
        place = self._item.currentIndex()
        return self._codes[place] if 0 <= place < len(self._codes) else ""

    def _change(self, does: str) -> None:
        typed = self._amount.text().strip()
        read = measure.read_number(typed) if does != STRIKES else None
        if read is not None and (read.value is None or read.value < 0):
            self._say(read.problem or "type how much, in the unit of the line")
            self._amount.setFocus()
            return
        if not self._why.text().strip():
            self._say("say why: it stands on the materials list beside what was worked out")
            self._why.setFocus()
            return
        amount = Entry(read.value, Known.TYPED, typed=typed) if read is not None and read.value is not None else None
        stage = self._stage(self._code())
        made = LineByHand(item=self._code(), does=does, amount=amount, stage=stage, why=self._why.text().strip())
        self._workspace.add("by_hand", made, f"{self._item.currentText()} {does} by hand")
        self._amount.show_value("")
        self._why.show_value("")
        self._say("")

    def _stage(self, code: str) -> str:
        """The stage at which the line is wanted now, so that more of it comes at the same time; else the frames."""
        estimate = self._workspace.estimate
        needs = (need for line in (estimate.lines if estimate else ()) if line.item.code == code for need in line.needs)
        return next((need.stage for need in needs), "frames")

    def _put_back(self) -> None:
        if 0 <= self._row < len(self._workspace.job.by_hand):
            self._workspace.remove("by_hand", self._row, "put back what was worked out")
        self._row = -1
        self._back.setEnabled(False)

    def _say(self, words: str) -> None:
        self._trouble.setText(words)
        self._trouble.setVisible(bool(words))


def by_hand_group(made: tuple[ByHand, ...]) -> tuple[Group, ...]:
    """The changes by hand as the last group of the list; none without one."""
    rows = tuple(_changed_row(each) for each in made)
    return (Group("by hand", "Changed by hand", rows, f"{len(rows)} {'change' if len(rows) == 1 else 'changes'}"),) if rows else ()


def _changed_row(change: ByHand) -> Row:
    """A change with its reason, what is needed now, and in place of what is bought what was worked out; read out in one sentence."""
    was, now = ("nothing" if each is None else amount_words(each.value, each.unit) for each in (change.was, change.now))
    return Row(
        f"{KEY}{change.place}",
        (
            Cell(change.item.name, strong=True, spoken=by_hand_words(change)),
            Cell(change.why, tone="ink2"),
            Cell("struck out" if change.now is None else now, strong=True),
            *(Cell() for _ in range(_HELD)),
            Cell(f"{was} worked out", tone="ink2"),
        ),
    )


_HELD: Final = 3
"""Columns of what kits, rack and stock give."""
