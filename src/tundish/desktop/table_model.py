"""A read-only model over rows that are ready to show. Sorting and filtering is done on the rows, before they come here."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from tundish.desktop.cells import Cell, Column, Group, Row

Index = QModelIndex | QPersistentModelIndex


class TableModel(QAbstractTableModel):
    """Groups of rows as one list, without the rows of groups that are folded."""

    def __init__(self, columns: Sequence[Column], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.columns = tuple(columns)
        self._groups: tuple[Group, ...] = ()
        self._folded: set[str] = set()
        self._shown: list[Row | Group] = []

    def set_groups(self, groups: Sequence[Group]) -> None:
        """Show these groups; those that were folded stay so."""
        self.beginResetModel()
        self._groups = tuple(groups)
        self._shown = list(self._flat())
        self.endResetModel()

    def set_heads(self, titles: Sequence[str]) -> None:
        """Name the columns otherwise."""
        self.columns = tuple(replace(column, title=title) for column, title in zip(self.columns, titles, strict=True))
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(self.columns) - 1)

    def fold(self, group: str, *, folded: bool) -> None:
        """Fold a group away or open it."""
        self.beginResetModel()
        (self._folded.add if folded else self._folded.discard)(group)
        self._shown = list(self._flat())
        self.endResetModel()

    def folded(self, group: str) -> bool:
        """Whether a group is folded."""
        return group in self._folded

    def entry(self, row: int) -> Row | Group:
        """What stands in a line of the list."""
        return self._shown[row]

    def entries(self) -> Sequence[Row | Group]:
        """Every line of the list."""
        return self._shown

    def place(self, entry_id: str) -> int:
        """The line that shows a row or group, −1 where none does."""
        return next((place for place, entry in enumerate(self._shown) if entry.id == entry_id), -1)

    def group_of(self, row_id: str) -> str:
        """The group a row is in, "" where it is in none."""
        return next((group.id for group in self._groups for row in group.rows if row.id == row_id), "")

    def cell(self, row: int, column: int) -> Cell:
        """The cell of a line: of a group's head, its title or a subtotal."""
        entry = self._shown[row]
        if isinstance(entry, Row):
            return entry.cells[column] if column < len(entry.cells) else Cell()
        if column == 0:
            state = ("folded" if entry.id in self._folded else "open") if entry.folds else ""
            return Cell(entry.title, spoken=", ".join(part for part in (entry.title, entry.note, state) if part))
        return next((cell for place, cell in entry.subtotals if place == column), Cell())

    def rowCount(self, parent: Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self._shown)

    def columnCount(self, parent: Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.columns)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """What the view asks for of one cell."""
        if role == Qt.ItemDataRole.DisplayRole:
            return self.cell(index.row(), index.column()).text
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return self.cell(index.row(), index.column()).said
        if role == Qt.ItemDataRole.ToolTipRole:
            return self.cell(index.row(), index.column()).spoken or None
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if orientation == Qt.Orientation.Horizontal and role in {Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole}:
            return self.columns[section].title
        return None

    def _flat(self) -> Sequence[Row | Group]:
        shown: list[Row | Group] = []
        for group in self._groups:
            if group.title:
                shown.append(group)
            if group.id not in self._folded or not group.title:
                shown += group.rows
        return shown
