"""The box that opens on the drawing when a size of the chosen piece is typed."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.moves import Size
from tundish.desktop.painted import ENTER
from tundish.desktop.words import label, retone

KEYS = "Enter sets it · D next size · Esc back"


class SizeBox(Box):
    """Takes with Enter, steps to the next size with D, and lets go with Esc or when the keyboard leaves."""

    set_asked = Signal(str)
    next_asked = Signal()
    left = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in ENTER:
            self.set_asked.emit(self.text())
        elif key == Qt.Key.Key_Escape:
            self.left.emit()
        elif key == Qt.Key.Key_D:
            self.next_asked.emit()
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self.setModified(False)
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.left.emit()


class DimensionBox(QFrame):
    """Says which size is typed. `typed` brings the size and the words; what is wrong with them comes back by `show_problem`."""

    typed = Signal(object, str)
    closed = Signal()

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self._over = over
        self.setProperty("kind", "find")
        self._sizes: tuple[Size, ...] = ()
        self._place = 0
        self._title = label("", "tableStrong", "chalk")
        self._note = label(KEYS, "note", "ink2")
        self.box = SizeBox("Size", figure=True)
        row = QHBoxLayout()
        row.setSpacing(10)
        row.addWidget(self.box, 1)
        row.addWidget(label("mm", "table", "ink2"))
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 6, 10, 8)
        column.setSpacing(4)
        column.addWidget(self._title)
        column.addLayout(row)
        column.addWidget(self._note)
        self.box.set_asked.connect(self._set)
        self.box.next_asked.connect(self._next)
        self.box.left.connect(self.close_box)
        self.hide()

    def open_at(self, around: QRectF, sizes: tuple[Size, ...], place: int, typed: str) -> None:
        """Open beside a piece with one of its sizes, beginning with what was typed."""
        self._sizes, self._place = sizes, place % len(sizes)
        self._show(typed)
        self.adjustSize()
        gap = look.now().px(12)
        x = around.right() + gap if around.right() + gap + self.width() <= self._over.width() else around.left() - gap - self.width()
        y = around.center().y() - self.height() / 2
        self.move(QPoint(_within(x, self._over.width() - self.width()), _within(y, self._over.height() - self.height())))
        self.show()
        self.raise_()
        self.box.setFocus(Qt.FocusReason.MouseFocusReason)  # keeps what was typed from being selected
        if not typed:
            self.box.selectAll()

    def title(self) -> str:
        """Which size is typed."""
        return self._title.text()

    def show_problem(self, words: str) -> None:
        """Say what is wrong with the words; they are kept for mending."""
        self.box.show_bad(bad=True)
        self._note.setText(words)
        retone(self._note, "tone", "fails")

    def close_box(self) -> None:
        """Close without setting anything; the keyboard goes back to the drawing."""
        if self.isVisible():
            self.box.setModified(False)
            if self.box.hasFocus():
                # The keyboard goes first: a box that hides with it would pass it on, and the drawing step to its next piece.
                self.box.blockSignals(True)
                self.closed.emit()
                self.box.blockSignals(False)
            self.hide()

    def _show(self, words: str) -> None:
        size = self._sizes[self._place]
        self.box.show_bad(bad=False)
        self.box.setAccessibleName(f"{size.label}, millimetres")
        self._title.setText(size.label)
        self._note.setText(KEYS)
        retone(self._note, "tone", "ink2")
        self.box.setText(words or measure.show_length(size.shown))
        self.box.setModified(bool(words))

    def _next(self) -> None:
        kept = self.box.text() if self.box.isModified() else ""
        self._place = (self._place + 1) % len(self._sizes)
        self._show(kept)
        self.adjustSize()
        if not kept:
            self.box.selectAll()

    def _set(self, words: str) -> None:
        if self.box.isModified():
            self.typed.emit(self._sizes[self._place], words)
        else:
            self.close_box()


def _within(wanted: float, most: int) -> int:
    return max(min(round(wanted), most), 0)
