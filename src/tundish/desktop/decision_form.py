"""The small form that settles one decision: its state, who, when and how it was shown; for a test, its readings, which are judged."""

from __future__ import annotations

from datetime import date
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QWidget

from tundish import measure
from tundish.desktop import deciding, look
from tundish.desktop.boxes import Box
from tundish.desktop.chooser import Chooser
from tundish.desktop.unkept import Unkept
from tundish.desktop.words import CutLabel, button, label
from tundish.field import Entry
from tundish.rules.rule import Decision
from tundish.survey.settled import STATES, Settled

READINGS: Final = {"start": "At the start", "end": "At the end", "minutes": "Minutes"}


class DecisionForm(QFrame):
    """Shows the record of a decision; `recorded` has the new one, whole and ready to keep but for what it is the record of."""

    recorded = Signal(object)
    taken_out = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._shown: tuple[Decision | None, Settled | None] | None = None
        self._unkept: Unkept[tuple[str, ...]]
        self._title, self._trouble = CutLabel("tableStrong", "ink"), label("", "note", "fails")
        self.state = Chooser("State")
        self.state.show_choices([state.capitalize() for state in STATES], 0)
        self.who, self.when, self.shown_by = Box("Who"), Box("When"), Box("Shown by")
        self.readings = {name: Box(words) for name, words in READINGS.items()}
        self._units = {name: label("", "note", "ink2") for name in READINGS}
        self.record = button("Record it", "s_agreed", main=True)
        self.record.clicked.connect(self._record)
        self.out = button("Take out this row", "cross")
        self.out.clicked.connect(self.taken_out)
        self._lay_out()
        self.begin()

    def begin(self) -> None:
        """Another job: none is chosen, and nothing that was typed waits."""
        self._shown, self._unkept = None, Unkept()
        self.show_decision(None, None)

    def show_decision(self, decision: Decision | None, record: Settled | None) -> None:
        """Show a decision with its record, or that none is chosen; what is half typed waits for its decision to be shown again."""
        if self._shown == (decision, record):
            return
        self._unkept.leave(self._words())
        self._shown = (decision, record)
        self._title.setText(decision.title if decision else "Choose a row to settle it")
        for part in (self.state, self.who, self.when, self.shown_by, self.record):
            part.setEnabled(decision is not None)
        self.out.setVisible(deciding.is_own(decision))
        self._show_boxes(decision)
        self._fill(_words_of(record or Settled()))
        typed = self._unkept.show(decision.key if decision else "", self._words())
        if typed is not None:
            self._fill(typed)
        self._trouble.setText("As you typed it; it is not recorded yet" if typed is not None else "")

    def _words(self) -> tuple[str, ...]:
        return (self.state.currentText(), *(box.text() for box in self._boxes()))

    def _fill(self, words: tuple[str, ...]) -> None:
        state, *rest = words
        self.state.choose(state)
        for box, text in zip(self._boxes(), rest, strict=True):
            box.show_value(text)
            box.setText(text)
            box.setCursorPosition(0)
            box.setModified(False)

    def _boxes(self) -> tuple[Box, ...]:
        return (self.who, self.when, self.shown_by, *self.readings.values())

    def _show_boxes(self, decision: Decision | None) -> None:
        """The boxes for the readings of a test, with what they are read in; none where nothing is read."""
        proof = decision.proof if decision else None
        self.shown_by.setPlaceholderText("" if proof else decision.shown_by if decision else "")
        for name, box in self.readings.items():
            unit = proof.least.unit if proof and name != "minutes" else ""
            self._units[name].setText(f"{READINGS[name]}, {unit}" if unit else READINGS[name])
            for part in (box, self._units[name]):
                part.setVisible(proof is not None)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(12, 6, 12, 8)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(2)
        grid.addWidget(self._title, 0, 0, 1, 3)
        grid.addWidget(self._trouble, 0, 3, 1, 4)
        grid.addWidget(self.out, 0, 7)
        parts: tuple[tuple[QWidget, QWidget, int], ...] = (
            (self.state, label("State", "note", "ink2"), 0),
            (self.who, label("Who", "note", "ink2"), 3),
            (self.when, label("When", "note", "ink2"), 2),
            *((box, self._units[name], 1) for name, box in self.readings.items()),
            (self.shown_by, label("Shown by", "note", "ink2"), 5),
        )
        for column, (part, words, stretch) in enumerate(parts):
            grid.addWidget(words, 1, column)
            grid.addWidget(part, 2, column)
            grid.setColumnStretch(column, stretch)
        grid.addWidget(self.record, 2, len(parts))
        self.who.setMinimumWidth(look.now().px(112))
        self.when.setMinimumWidth(look.now().px(140))
        for box in self.readings.values():
            box.setMinimumWidth(look.now().px(64))

    def _record(self) -> None:
        day = measure.read_date(self.when.text())
        if day.value is None:
            self._trouble.setText(f"When: {day.problem or 'a date is needed'}")
            return
        state = self.state.currentText().lower()
        read = {name: measure.read_number(box.text()) for name, box in self.readings.items()}
        bad = next((f"{READINGS[name]}: {each.problem}" for name, each in read.items() if each.problem), "")
        start, end, minutes = (None if each.value is None else Entry(each.value) for each in read.values())
        who, shown = self.who.text().strip(), self.shown_by.text().strip()
        record = Settled(state=state, who=who, when=day.value, evidence=shown, start=start, end=end, minutes=minutes)
        proof = self._shown[0].proof if self._shown and self._shown[0] else None
        wanting = bad or deciding.wanting(record, proof)
        self._trouble.setText(wanting)
        if not wanting:
            self._unkept.forget()
            self.recorded.emit(record)


def _words_of(record: Settled) -> tuple[str, ...]:
    """A record as it stands in the boxes; one that has no day yet is of today."""
    day = measure.show_date(record.when or date.today().isoformat())
    read = [measure.show_number(entry.value, None) if entry else "" for entry in (record.start, record.end, record.minutes)]
    return (record.state.capitalize(), record.who, day, record.evidence, *read)
