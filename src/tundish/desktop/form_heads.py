"""The heads and sums between the rows of a form."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRect, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish.desktop import look
from tundish.desktop.painted import line, width_of, write

LABEL: Final = 192
"""Room for the label, pixels at 100 %; the mark and the box come after it."""
MARK: Final = 24
EDGE: Final = 14


class GroupHead(QWidget):
    """The head of a group of rows, with a note at the right."""

    def __init__(self, title: str, note: str = "") -> None:
        super().__init__()
        self.title, self._note = title, note
        self._button: QWidget | None = None
        self.setAccessibleName(title)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def set_note(self, note: str) -> None:
        """Show another note."""
        self._note = note
        self.update()

    def set_button(self, button: QWidget) -> None:
        """Put a button at the right of the head."""
        self._button = button
        button.setParent(self)
        button.show()
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(200), look.now().px(28))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, px = QPainter(self), look.now().px
        painter.fillRect(self.rect(), look.colour("tray"))
        room = self.rect().adjusted(px(EDGE), 0, -px(EDGE), 0)
        if self._button is not None:
            room.setRight(self._button.x() - px(6))
        write(painter, room, self.title, "tableStrong")
        room.setLeft(room.left() + width_of(self.title, "tableStrong") + px(12))
        write(painter, room, self._note, "note", "ink2", right=True)

    def _place(self) -> None:
        if self._button is not None:
            wide, high = self._button.sizeHint().width(), self._button.sizeHint().height()
            self._button.setGeometry(self.width() - look.now().px(6) - wide, (self.height() - high) // 2, wide, high)


class Sum(QWidget):
    """A line of a form that is worked out: its label, its figure and unit under a rule, and a tag."""

    def __init__(self, label: str) -> None:
        super().__init__()
        self._label, self._figure, self._unit = label, "–", ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_value(self, figure: str, unit: str) -> None:
        """Show the figure."""
        self._figure, self._unit = figure, unit
        self.setAccessibleName(f"{self._label} {figure} {unit}".strip())
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(300), look.now().row(32))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter, px = QPainter(self), look.now().px
        line(painter, QPointF(px(EDGE), 0.5), QPointF(self.width() - px(EDGE), 0.5), "edge")
        write(painter, QRect(px(EDGE), 0, px(LABEL), self.height()), self._label, "bodyStrong")
        left, wide = px(EDGE + LABEL + MARK), max(px(84), width_of(self._figure, "bodyStrong") + px(18))
        write(painter, QRect(left, 0, wide - px(9), self.height()), self._figure, "bodyStrong", right=True)
        after = left + wide + px(8)
        write(painter, QRect(after, 0, self.width() - px(EDGE) - after, self.height()), self._unit, "body", "ink2")
