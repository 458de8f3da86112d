"""A small table to type in: a box for every cell, and an empty row at its end for what comes next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtWidgets import QGridLayout, QWidget

from tundish.desktop.boxes import Box
from tundish.desktop.words import label

Cells = Mapping[str, str]
LEAST = 56
"""Least width of a box, pixels."""


class CellGrid(QWidget):
    """Rows under named columns. A row emptied is a row taken away; typing in the last row adds one below it."""

    def __init__(self, name: str, columns: Sequence[tuple[str, str]], across: int = 0) -> None:
        """`columns` are key and head; where they are many, a row goes over several lines of `across` boxes."""
        super().__init__()
        self._name, self._columns, self._across = name, columns, across or len(columns)
        self._high = -(-len(columns) // self._across)
        self._rows: list[dict[str, Box]] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(4)
        for place, (_, head) in enumerate(columns):
            self._grid.addWidget(label(head, "note", "ink2"), *divmod(place, self._across))
        self.show_rows(())

    def show_rows(self, rows: Sequence[Cells]) -> None:
        """Show rows in place of what is there, and an empty one."""
        for box in [box for row in self._rows for box in row.values()]:
            box.hide()
            box.deleteLater()
        self._rows = []
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
            self._grid.addWidget(box, number * self._high + line, column)
            row[key] = box
        self._rows.append(row)

    def _typed(self, _words: str) -> None:
        if any(box.text() for box in self._rows[-1].values()):
            self._add({})
