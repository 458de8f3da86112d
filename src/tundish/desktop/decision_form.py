"""The small form that settles one decision: its state, who, when and how it was shown."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QWidget

from tundish import measure
from tundish.desktop import deciding, look
from tundish.desktop.boxes import Box
from tundish.desktop.chooser import Chooser
from tundish.desktop.words import CutLabel, button, label
from tundish.rules.rule import Decision
from tundish.survey.settled import STATES, Settled


class DecisionForm(QFrame):
    """Shows the record of a decision; `recorded` has the new one, whole and ready to keep but for what it is the record of."""

    recorded = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[Decision | None, Settled | None] | None = None
        self._title, self._trouble = CutLabel("tableStrong", "ink"), label("", "note", "fails")
        self.state = Chooser("State")
        self.state.show_choices([state.capitalize() for state in STATES], 0)
        self.who, self.when, self.shown_by = Box("Who"), Box("When"), Box("Shown by")
        self.record = button("Record it", "s_agreed", main=True)
        self.record.clicked.connect(self._record)
        self._lay_out()
        self.show_decision(None, None)

    def show_decision(self, decision: Decision | None, record: Settled | None) -> None:
        """Show a decision with its record, or that none is chosen; what is half typed is left alone while nothing changed."""
        if self._shown == (decision, record):
            return
        self._shown = (decision, record)
        self._trouble.setText("")
        self._title.setText(decision.title if decision else "Choose a row to settle it")
        for part in (self.state, self.who, self.when, self.shown_by, self.record):
            part.setEnabled(decision is not None)
        self.state.choose((record.state if record else "open").capitalize())
        self._fill(self.who, record.who if record else "")
        self._fill(self.when, measure.show_date(record.when) if record and record.when else measure.show_date(date.today().isoformat()))
        self._fill(self.shown_by, record.evidence if record else "")
        self.shown_by.setPlaceholderText(decision.shown_by if decision else "")

    @staticmethod
    def _fill(box: Box, words: str) -> None:
        box.show_value(words)
        box.setText(words)
        box.setCursorPosition(0)
        box.setModified(False)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(12, 6, 12, 8)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(2)
        grid.addWidget(self._title, 0, 0, 1, 3)
        grid.addWidget(self._trouble, 0, 3, 1, 2)
        parts: tuple[tuple[QWidget, str, int], ...] = (
            (self.state, "State", 0),
            (self.who, "Who", 3),
            (self.when, "When", 2),
            (self.shown_by, "Shown by", 5),
        )
        for column, (part, words, stretch) in enumerate(parts):
            grid.addWidget(label(words, "note", "ink2"), 1, column)
            grid.addWidget(part, 2, column)
            grid.setColumnStretch(column, stretch)
        grid.addWidget(self.record, 2, 4)
        self.when.setMinimumWidth(look.now().px(140))

    def _record(self) -> None:
        day = measure.read_date(self.when.text())
        if day.value is None:
            self._trouble.setText(f"When: {day.problem or 'a date is needed'}")
            return
        state = self.state.currentText().lower()
        record = Settled(decision="", state=state, who=self.who.text().strip(), when=day.value, evidence=self.shown_by.text().strip())
        wanting = deciding.wanting(record)
        self._trouble.setText(wanting)
        if not wanting:
            self.recorded.emit(record)
