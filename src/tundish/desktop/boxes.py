"""The boxes of a form: each holds text, tells when it was taken, and puts the old value back on Esc. None works anything out."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QPainter
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QSizePolicy, QWidget

from tundish.desktop import icons, look
from tundish.desktop.painted import ENTER, Painted, panel, pen, width_of, write
from tundish.desktop.words import retone

_STEPS: Final = {Qt.Key.Key_Up: 1, Qt.Key.Key_Down: -1}
_LONG_STEP: Final = 10
_UNDO: Final = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)


class Box(QLineEdit):
    """One line. Enter and Tab take the text and go on; Esc puts the old value back; in a box for a figure Up and Down step it."""

    taken = Signal(str)
    put_back = Signal()
    stepped = Signal(int)
    entered = Signal()
    tbc_asked = Signal()
    usual_asked = Signal()
    known_asked = Signal()

    def __init__(self, name: str, *, figure: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._figure = figure
        self._bad = False
        self._shown = ""
        self._asks = {Qt.Key.Key_T: self.tbc_asked, Qt.Key.Key_U: self.usual_asked, Qt.Key.Key_K: self.known_asked}
        if figure:
            self.setProperty("figure", "yes")
            self.setAlignment(Qt.AlignmentFlag.AlignRight)

    @property
    def is_figure(self) -> bool:
        """Whether it holds a figure rather than words."""
        return self._figure

    def show_value(self, text: str) -> None:
        """Show a value; what is being typed, and what could not be used, is left alone."""
        self._shown = text
        if not self._bad and not (self.hasFocus() and self.isModified()):
            self._set(text)

    def show_bad(self, *, bad: bool) -> None:
        """Mark the text as one that cannot be used; it is kept for mending until it is mended or put back."""
        self._bad = bad
        retone(self, "state", "bad" if bad else "")

    def take(self) -> None:
        """Take the text now, if it was changed."""
        if self.isModified():
            self.setModified(False)
            self.taken.emit(self.text())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in ENTER:
            self.take()
            self.focusNextPrevChild(True)
        elif key == Qt.Key.Key_Escape and (self.isModified() or self.text() != self._shown):
            self.show_bad(bad=False)
            self._set(self._shown)
            self.put_back.emit()
        elif self._figure and key in _STEPS:
            self.take()
            shifted = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self.stepped.emit(_STEPS[key] * (_LONG_STEP if shifted else 1))
        elif key in self._asks and event.modifiers() == Qt.KeyboardModifier.ControlModifier:
            self._asks[key].emit()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() != Qt.FocusReason.MouseFocusReason:
            self.selectAll()
        self.entered.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.take()
            if not self._figure:
                self.setCursorPosition(0)

    def event(self, event: QEvent) -> bool:
        """Undo and redo are the job's unless there is typing here to undo."""
        if event.type() == QEvent.Type.ShortcutOverride and not self.isModified() and any(event.matches(key) for key in _UNDO):  # type: ignore[attr-defined]
            event.ignore()
            return False
        return super().event(event)

    def _set(self, text: str) -> None:
        if text != self.text():
            self.setText(text)
            if self.hasFocus():
                self.selectAll()
            elif not self._figure:
                self.setCursorPosition(0)  # words that are too long are read from their beginning
        self.setModified(False)


class NoteBox(QPlainTextEdit):
    """A few lines of words, taken when the keyboard leaves; Tab goes on to the next box."""

    taken = Signal(str)
    put_back = Signal()
    entered = Signal()

    def __init__(self, name: str, *, lines: int = 3, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setTabChangesFocus(True)
        self._lines = lines
        self._shown = ""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_value(self, text: str) -> None:
        """Show words; what is being typed is left alone."""
        self._shown = text
        if not self.hasFocus() and text != self.toPlainText():
            self.setPlainText(text)

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(240), look.now().px(20 * self._lines + 12))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.toPlainText() != self._shown:
            self.setPlainText(self._shown)
            self.put_back.emit()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason and self.toPlainText() != self._shown:
            self._shown = self.toPlainText()
            self.taken.emit(self._shown)


class TickBox(Painted):
    """Yes or no, with its words beside it; says "yes" or "no" when taken."""

    taken = Signal(str)
    entered = Signal()
    tbc_asked = Signal()

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(words, parent)
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.clicked.connect(self._pressed)

    def show_value(self, text: str) -> None:
        """Show "yes" as ticked, anything else as not."""
        self.setChecked(text == "yes")

    def measure(self) -> QSize:
        """How large it wants to be."""
        px = look.now().px
        return QSize(px(28) + width_of(self.text(), "body"), look.now().row(30))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_T and event.modifiers() == Qt.KeyboardModifier.ControlModifier:
            self.tbc_asked.emit()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        px = look.now().px
        side = px(18)
        box = QRect(1, (self.height() - side) // 2, side, side)
        tone = "chalk" if self.isChecked() else "edge"
        ink = "ink" if self.isEnabled() else "edge"
        fill = "chalkWash" if self.isChecked() else "tray" if self.underMouse() else "sheet"
        panel(painter, QRectF(box), fill=look.colour(fill), edge=pen(tone, 1.5), radius=3)
        if self.isChecked():
            icons.draw(painter, box.adjusted(2, 2, -2, -2), "tick", "chalk")
        write(painter, QRect(px(26), 0, self.width() - px(26), self.height()), self.text(), "body", ink)

    def _pressed(self) -> None:
        self.taken.emit("yes" if self.isChecked() else "no")
