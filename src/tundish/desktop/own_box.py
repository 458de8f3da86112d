"""A box at the foot of Where from: a figure of the trader's own in place of the one worked out."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QVBoxLayout

from tundish.desktop.boxes import Box
from tundish.desktop.painted import ENTER
from tundish.desktop.receipt import OwnBox
from tundish.desktop.words import label


class OwnFigure(Box):
    """A box that keeps the keyboard when its figure is taken with Enter: the column says where it goes next."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in ENTER:
            super().keyPressEvent(event)
        elif self.isModified():
            self.take()
        else:
            self.put_back.emit()


class TypeOver(QFrame):
    """Hidden until asked for. `given` has the id of the figure and the words typed; Esc leaves the figure as it is."""

    given = Signal(str, str)
    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("kind", "note")
        self._own: OwnBox | None = None
        self._name, self._trouble = label("", "note", "ink2", wrap=True), label("", "note", "fails", wrap=True)
        self.box = OwnFigure("Type my own", figure=True)
        self.box.taken.connect(self._taken)
        self.box.put_back.connect(self._leave)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for part in (self._name, self.box, self._trouble):
            column.addWidget(part)
        self.hide()

    def belongs_to(self, own: OwnBox | None) -> None:
        """Another figure is shown: the box goes, unless it is this figure's."""
        if own is None or self._own is None or own.id != self._own.id:
            self._own = own
            self.hide()

    def ask(self) -> None:
        """Show the box, the keyboard in it."""
        if self._own is not None:
            self._name.setText(f"Your own: {self._own.name}")
            self.box.setAccessibleName(self._own.name)
            self.box.show_bad(bad=False)
            self.box.show_value(self._own.typed)
            self._say("")
            self.show()
            self.box.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def refuse(self, words: str, problem: str) -> None:
        """What was typed cannot be used: it stays, with what is wrong."""
        self.box.setText(words)
        self.box.show_bad(bad=True)
        self._say(problem)
        self.show()
        self.box.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        # The arrows, Backspace and Del are the column's, but not while somebody types.
        if event.key() == Qt.Key.Key_Escape:
            self._leave()
        event.accept()

    def _taken(self, words: str) -> None:
        self.box.show_bad(bad=False)
        self._leave()
        if self._own is not None and words.strip():
            self.given.emit(self._own.id, words)

    def _leave(self) -> None:
        self.hide()
        self.left.emit()

    def _say(self, problem: str) -> None:
        self._trouble.setText(problem)
        self._trouble.setVisible(bool(problem))
