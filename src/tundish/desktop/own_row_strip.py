"""A strip in the page in which the fitter adds a row of his own to what must be settled before closing."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QGridLayout

from tundish.desktop.boxes import Box
from tundish.desktop.chooser import Chooser
from tundish.desktop.words import button, label
from tundish.survey.settled import BY, OwnRow


class OwnRowStrip(QFrame):
    """Hidden until asked; `given` has the row, its key still to be made. Without words for what is to be settled nothing is added."""

    given = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("kind", "warning")
        self.what, self.why, self.shown_by, self.by = Box("To settle"), Box("Why"), Box("To be shown by"), Chooser("By")
        self.by.show_choices(list(BY), len(BY) - 1)
        self.do, leave = button("Add it", "add", main=True), button("Leave it")
        self.do.clicked.connect(self._do)
        leave.clicked.connect(self.hide)
        self.what.textChanged.connect(lambda words: self.do.setEnabled(bool(words.strip())))
        grid = QGridLayout(self)
        grid.setContentsMargins(10, 4, 4, 4)
        heads = (("To settle", self.what, 4), ("Why", self.why, 4), ("To be shown by", self.shown_by, 3), ("By", self.by, 0))
        for column, (words, part, stretch) in enumerate(heads):
            grid.addWidget(label(words, "note", "ink2"), 0, column)
            grid.addWidget(part, 1, column)
            grid.setColumnStretch(column, stretch)
        grid.addWidget(self.do, 1, len(heads))
        grid.addWidget(leave, 1, len(heads) + 1)
        self.hide()

    def ask(self) -> None:
        """Show the strip, blank, the keyboard in its first box."""
        for box in (self.what, self.why, self.shown_by):
            box.show_value("")
            box.clear()
        self.do.setEnabled(False)
        self.show()
        self.what.setFocus(Qt.FocusReason.OtherFocusReason)

    def _do(self) -> None:
        self.hide()
        words = (each.text().strip() for each in (self.what, self.why, self.shown_by))
        what, why, shown_by = words
        self.given.emit(OwnRow(what=what, why=why, shown_by=shown_by, by=self.by.currentText()))
