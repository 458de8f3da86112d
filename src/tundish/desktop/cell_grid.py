"""A small table to type in: a box for every cell, and an empty row at its end for what comes next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtWidgets import QGridLayout, QWidget

from tundish.desktop.boxes import Box
from tundish.desktop.words import label

Cells = Mapping[str, str]


class CellGrid(QWidget):
    """Rows under named columns. A row emptied is a row taken away; typing in the last row adds one below it."""

    def __init__(self, name: str, columns: Sequence[tuple[str, str, int]]) -> None:
        """`columns` are key, head and width at 100 %; width 0 takes what is left."""
        super().__init__()
        self._name, self._columns = name, columns
        self._rows: list[dict[str, Box]] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(4)
        for place, (_, head, width) in enumerate(columns):
            self._grid.addWidget(label(head, "note", "ink2"), 0, place)
            self._grid.setColumnStretch(place, 0 if width else 1)
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
        for place, (key, head, width) in enumerate(self._columns):
            box = Box(f"{self._name} {number}, {head}")
            box.show_value(cells.get(key, ""))
            if width:
                box.setFixedWidth(width)
            box.textEdited.connect(self._typed)
            self._grid.addWidget(box, number, place)
            row[key] = box
        self._rows.append(row)

    def _typed(self, _words: str) -> None:
        if any(box.text() for box in self._rows[-1].values()):
            self._add({})
