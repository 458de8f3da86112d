"""A small table to type in: a box for every cell, and an empty row at its end for what comes next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QGridLayout, QWidget

from tundish.desktop.boxes import Box
from tundish.desktop.words import label

Cells = Mapping[str, str]
LEAST = 56
"""Least width of a box, pixels."""
APART = 34
"""Height of the first heads of a row over several lines, pixels: rows are seen to be apart."""


MOST_PASTED = 200
"""Rows that are pasted at once: each has a box for every cell."""


class CellGrid(QWidget):
    """Rows under named columns. A row emptied is a row taken away; typing in the last row adds one below it.

    Cells copied from a spreadsheet are pasted from the box on, to the right and down.
    """

    said = Signal(str)
    """Why nothing was pasted."""

    def __init__(self, name: str, columns: Sequence[tuple[str, str]], across: int = 0) -> None:
        """`columns` are key and head; where they are many, a row goes over several lines of `across` boxes, with heads of its own."""
        super().__init__()
        self._name, self._columns, self._across = name, columns, across or len(columns)
        self._high = -(-len(columns) // self._across)
        self._rows: list[dict[str, Box]] = []
        self._heads: list[QWidget] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(4)
        if self._high == 1:
            for place, (_, head) in enumerate(columns):
                self._grid.addWidget(label(head, "note", "ink2"), 0, place)
        self.show_rows(())

    def show_rows(self, rows: Sequence[Cells]) -> None:
        """Show rows in place of what is there, and an empty one."""
        for old in (*self._heads, *(box for row in self._rows for box in row.values())):
            old.hide()
            old.deleteLater()
        for number in range(len(self._rows)):
            self._grid.setRowMinimumHeight(2 * (number + 1) * self._high, 0)
        self._rows, self._heads = [], []
        for cells in (*rows, {}):
            self._add(cells)

    def rows(self) -> tuple[Cells, ...]:
        """The rows in which anything is typed."""
        typed = ({key: box.text().strip() for key, box in row.items()} for row in self._rows)
        return tuple(cells for cells in typed if any(cells.values()))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(watched, Box) and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            lines = QApplication.clipboard().text().splitlines() if event.matches(QKeySequence.StandardKey.Paste) else []
            if len(lines) > 1 or any("\t" in line for line in lines):
                self._paste(watched, lines)
                return True
        return super().eventFilter(watched, event)

    def _paste(self, box: Box, lines: Sequence[str]) -> None:
        if len(lines) > MOST_PASTED:
            self.said.emit(f"Nothing is pasted: {len(lines)} rows are too many, {MOST_PASTED} at most. Save them as a file, and open that")
            return
        keys = [key for key, _ in self._columns]
        heads = {*keys, *(head.lower() for _, head in self._columns)}
        if heads.issuperset(words.strip().lower() for words in lines[0].split("\t")):
            lines = lines[1:]
        down, right = next((down, keys.index(key)) for down, row in enumerate(self._rows) for key, each in row.items() if each is box)
        for place, line in enumerate(lines, down):
            if place == len(self._rows):
                self._add({})
            for key, words in zip(keys[right:], line.split("\t"), strict=False):
                self._rows[place][key].show_value(words.strip())
        self._typed("")

    def _add(self, cells: Cells) -> None:
        row, number = {}, len(self._rows) + 1
        before = list(self._rows[-1].values())[-1] if self._rows else None
        for place, (key, head) in enumerate(self._columns):
            box = Box(f"{self._name} {number}, {head}")
            box.show_value(cells.get(key, ""))
            box.setMinimumWidth(LEAST)
            box.textEdited.connect(self._typed)
            box.installEventFilter(self)
            line, column = divmod(place, self._across)
            if self._high == 1:
                self._grid.addWidget(box, number, column)
            else:
                self._add_below(label(head, "note", "ink2"), box, 2 * (number * self._high + line), column)
            row[key] = box
            if before is not None:
                self.setTabOrder(before, box)
            before = box
        if self._high > 1 and number > 1:
            self._grid.setRowMinimumHeight(2 * number * self._high, APART)
        self._rows.append(row)

    def _add_below(self, head: QWidget, box: Box, line: int, column: int) -> None:
        self._heads.append(head)
        self._grid.addWidget(head, line, column, Qt.AlignmentFlag.AlignBottom)
        self._grid.addWidget(box, line + 1, column)

    def _typed(self, _words: str) -> None:
        if any(box.text() for box in self._rows[-1].values()):
            self._add({})
