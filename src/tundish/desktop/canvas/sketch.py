"""A drawing one only looks at: the sketch beside a form, the picture on the first page."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish.desktop import look
from tundish.desktop.canvas.painting import Placed, fitted, paint_drawing, words_room
from tundish.documents.clear_words import clear_words
from tundish.documents.drawing import Drawing


class Sketch(QWidget):
    """Shows a drawing whole; its words for a screen reader are given with it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._drawing: Drawing | None = None
        self._chosen = ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    @property
    def drawing(self) -> Drawing | None:
        """What is shown."""
        return self._drawing

    def show_drawing(self, drawing: Drawing, words: str, chosen: str = "") -> None:
        """Show a drawing, what it shows in words, and the piece to pick out in chalk."""
        self._drawing, self._chosen = drawing, chosen
        self.setAccessibleName(words)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(320), look.now().px(240))

    def seen(self) -> tuple[Drawing, Placed] | None:
        """The drawing at the size it is painted, its words clear of one another there, and where it falls."""
        if self._drawing is None:
            return None
        placed = fitted(self._drawing.extent, QRectF(self.rect()))
        return clear_words(self._drawing, lambda mark: words_room(mark, placed.scale)), placed

    def paintEvent(self, _event: QPaintEvent) -> None:
        if seen := self.seen():
            paint_drawing(QPainter(self), *seen, self._chosen)
