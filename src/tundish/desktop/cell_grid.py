"""A small table to type in: a box for every cell, and an empty row at its end for what comes next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from tundish.desktop.boxes import Box
from tundish.desktop.words import label

Cells = Mapping[str, str]
LEAST = 56
"""Least width of a box, pixels."""
APART = 34
"""Height of the first heads of a row over several lines, pixels: rows are seen to be apart."""


class CellGrid(QWidget):
    """Rows under named columns. A row emptied is a row taken away; typing in the last row adds one below it."""

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

    def _add(self, cells: Cells) -> None:
        row, number = {}, len(self._rows) + 1
        for place, (key, head) in enumerate(self._columns):
            box = Box(f"{self._name} {number}, {head}")
            box.show_value(cells.get(key, ""))
            box.setMinimumWidth(LEAST)
            box.textEdited.connect(self._typed)
            line, column = divmod(place, self._across)
            if self._high == 1:
                self._grid.addWidget(box, number, column)
            else:
                self._add_below(label(head, "note", "ink2"), box, 2 * (number * self._high + line), column)
            row[key] = box
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
