"""Find anything: a box and a list over the page. Enter goes there, Esc leaves."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QFrame, QLineEdit, QVBoxLayout, QWidget

from tundish.desktop import look
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.finding import find
from tundish.desktop.painted import ENTER
from tundish.desktop.tables import Table
from tundish.desktop.words import label
from tundish.desktop.workspace import Workspace

COLUMNS: Final = (Column("What"), Column("Is", 170, right=True), Column("Where", 104))
WIDE: Final = 720
HIGH: Final = 420


class FindBox(QFrame):
    """Lies over a region of the window while it is open; `found` has the id of what was chosen."""

    found = Signal(str)

    def __init__(self, workspace: Workspace, over: QWidget) -> None:
        super().__init__(over)
        self._workspace, self._over = workspace, over
        self._left: QWidget | None = None
        self.setProperty("kind", "find")
        self.setAccessibleName("Find anything")
        self.box = QLineEdit()
        self.box.setAccessibleName("Find anything")
        self.box.setPlaceholderText("A field, a figure, a line of materials, a rule")
        self.box.textChanged.connect(self._show)
        self.table = Table("Found", COLUMNS)
        self.table.row_opened.connect(self._open_row)
        self.table.clicked.connect(self._clicked)
        self._words = label("", "note", "ink2")
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 12, 12, 8)
        column.setSpacing(6)
        column.addWidget(self.box)
        column.addWidget(self.table, 1)
        column.addWidget(self._words)
        for part in (self.box, self.table):
            part.installEventFilter(self)
        over.installEventFilter(self)
        self.hide()

    def open(self) -> None:
        """Show the box with the keyboard in it; what was typed last is there, to be typed over."""
        self._left = QApplication.focusWidget()
        self._place()
        self.show()
        self.raise_()
        self._show(self.box.text())
        self.box.selectAll()
        self.box.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def leave(self) -> None:
        """Close the box; the keyboard goes back to where it was."""
        self.hide()
        if self._left is not None:
            self._left.setFocus(Qt.FocusReason.OtherFocusReason)
        self._left = None

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self._over and event.type() == QEvent.Type.Resize and self.isVisible():
            self._place()
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and watched is not self._over:
            return self._key(watched, Qt.Key(event.key()))
        return super().eventFilter(watched, event)

    def _key(self, watched: QObject, key: Qt.Key) -> bool:
        """Do what a key means here; says whether it means anything."""
        if key == Qt.Key.Key_Escape:
            self.leave()
        elif watched is self.box and key in ENTER:
            self._open_row(self.table.chosen())
        elif watched is self.box and key in {Qt.Key.Key_Down, Qt.Key.Key_Up}:
            self._step(1 if key == Qt.Key.Key_Down else -1)
        else:
            return False
        return True

    def _step(self, by: int) -> None:
        """Choose the next row while the keyboard stays in the box."""
        rows = self.table.table_model.rowCount()
        place = self.table.currentIndex().row() + by
        if 0 <= place < rows:
            self.table.choose(self.table.table_model.entry(place).id)

    def _show(self, words: str) -> None:
        found = find(self._workspace, words)
        self.table.set_rows(
            tuple(Row(each.id, (Cell(each.words, strong=True), Cell(each.value), Cell(each.where, tone="ink2"))) for each in found)
        )
        self.table.set_empty(
            "Nothing found" if words.strip() else "Type what you look for", "Parts of words will do: pan top, strut, fall.", "find"
        )
        if found:
            self.table.choose(found[0].id)
            self.table.scrollToTop()
        self._words.setText(f"{len(found)} found. Up and Down choose, Enter goes there, Esc leaves." if found else "Esc leaves.")

    def _clicked(self) -> None:
        self._open_row(self.table.chosen())

    def _open_row(self, row: str) -> None:
        if row:
            self.hide()
            self._left = None
            self.found.emit(row)

    def _place(self) -> None:
        px = look.now().px
        wide, high = min(px(WIDE), self._over.width() - px(32)), min(px(HIGH), self._over.height() - px(32))
        self.setGeometry((self._over.width() - wide) // 2, px(16), wide, high)
