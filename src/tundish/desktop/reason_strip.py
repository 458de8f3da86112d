"""A strip in the page that asks for a reason; nothing pops up."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout

from tundish.desktop.boxes import Box
from tundish.desktop.words import button, label


class ReasonStrip(QFrame):
    """Hidden until asked; `given` has the reason. Without one nothing is done."""

    given = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("kind", "warning")
        self._question = label("", "tableStrong")
        self.box = Box("Reason")
        self.do, leave = button("Do it", main=True), button("Leave it")
        self.do.clicked.connect(self._do)
        leave.clicked.connect(self.hide)
        self.box.textChanged.connect(self._typed)
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 4, 4, 4)
        row.addWidget(self._question)
        row.addWidget(self.box, 1)
        row.addWidget(self.do)
        row.addWidget(leave)
        self.hide()

    def ask(self, question: str, act: str) -> None:
        """Show the strip with its question, the keyboard in its box."""
        self._question.setText(question)
        self.do.setText(act)
        self.do.setAccessibleName(act)
        self.box.show_value("")
        self.box.clear()
        self.do.setEnabled(False)
        self.show()
        self.box.setFocus(Qt.FocusReason.OtherFocusReason)

    def _typed(self, words: str) -> None:
        self.do.setEnabled(bool(words.strip()))

    def _do(self) -> None:
        self.hide()
        self.given.emit(self.box.text().strip())
