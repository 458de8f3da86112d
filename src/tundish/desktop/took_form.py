"""The small forms under the lists of After the job: somebody's hours at a stage, and how much of an item it took."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.boxes import Box, TickBox
from tundish.desktop.words import CutLabel, button, label
from tundish.field import Entry
from tundish.figure import Known
from tundish.pricing.took import MOST_HOURS, TookHours, TookLine

OPEN = ("", "tbc", "?")
"""What is typed where it is still to be said."""


class HoursForm(QWidget):
    """Who, and how many hours; blank or TBC: still to be said. `recorded` and `taken_out` have the row."""

    recorded = Signal(object)
    taken_out = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._stage = ""
        self._title, self._trouble = CutLabel("tableStrong", "ink"), label("", "note", "fails")
        self.who, self.hours = Box("Who"), Box("Hours it took", figure=True)
        self.helped = TickBox("Only helped")
        self.record, self.out = button("Record it", "pencil", main=True), button("Take out")
        self.record.clicked.connect(self._record)
        self.out.clicked.connect(lambda: self.taken_out.emit(TookHours(stage=self._stage, who=self.who.text().strip())))
        self.hours.setPlaceholderText("TBC")
        self.hours.setMaximumWidth(look.now().px(110))
        self.who.setMaximumWidth(look.now().px(190))
        who, hours = label("Who", "note", "ink2"), label("Hours", "note", "ink2")
        _lay_out(self, self._title, self._trouble, (who, self.who, hours, self.hours, self.helped, self.record, self.out))
        self.show_stage("", "", (), "")

    def show_stage(self, stage: str, name: str, rows: tuple[TookHours, ...], usual: str, helpers: frozenset[str] = frozenset()) -> None:
        """Show a stage, with what was said of the one who is named in the box, else of the first, else of who it usually is.

        `helpers`: who helps at this stage by what the job is priced on, in small letters.
        """
        if stage != self._stage:
            self._trouble.setText("")
            self.who.setText(rows[0].who if rows else usual)
            self.hours.clear()
        self._stage = stage
        self._title.setText(name or "Choose a stage to say its hours")
        for part in (self.who, self.hours, self.helped, self.record):
            part.setEnabled(bool(stage))
        mine = [each for each in rows if each.who.strip().casefold() == self.who.text().strip().casefold()]
        self.out.setEnabled(bool(mine))
        self.hours.show_value(entry_words(mine[0].hours) if mine else "")
        helps = mine[0].helped if mine else self.who.text().strip().casefold() in helpers
        self.helped.show_value("yes" if helps else "no")

    def _record(self) -> None:
        entry, problem = read_entry(self.hours.text(), "h", MOST_HOURS)
        self._trouble.setText(problem)
        self.hours.show_bad(bad=bool(problem))
        if not problem:
            self.hours.setModified(False)
            self.recorded.emit(TookHours(stage=self._stage, who=self.who.text().strip(), hours=entry, helped=self.helped.isChecked()))


class AmountForm(QWidget):
    """How much of an item it took, in its unit; blank: as estimated, or not said. `recorded` has the row."""

    recorded = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._row = TookLine()
        self._title, self._unit, self._trouble = (
            CutLabel("tableStrong", "ink"),
            label("", "note", "ink2"),
            label("", "note", "fails"),
        )
        self.took, self.record = Box("How much it took", figure=True), button("Record it", "pencil", main=True)
        self.took.setMaximumWidth(look.now().px(110))
        self.record.clicked.connect(self._record)
        _lay_out(self, self._title, self._trouble, (label("Took", "note", "ink2"), self.took, self._unit, self.record))
        self.show_line(TookLine())

    def show_line(self, row: TookLine) -> None:
        """Show what was said of an item; one without a name: none is chosen."""
        if row.item != self._row.item:
            self._trouble.setText("")
            self.took.clear()
        self._row = row
        self._title.setText(row.what or "Choose a line to say how much it took")
        self._unit.setText("" if row.unit == "each" else row.unit)
        for part in (self.took, self.record):
            part.setEnabled(bool(row.item))
        self.took.show_value(entry_words(row.took))

    def _record(self) -> None:
        entry, problem = read_entry(self.took.text(), self._row.unit, None)
        self._trouble.setText(problem)
        self.took.show_bad(bad=bool(problem))
        if not problem:
            self.took.setModified(False)
            self.recorded.emit(replace(self._row, took=entry))


def read_entry(words: str, unit: str, most: float | None) -> tuple[Entry | None, str]:
    """What was typed as an entry, a range as one that is still open; None where it is still to be said. Then what is wrong with it."""
    if words.strip().lower() in OPEN:
        return None, ""
    read = measure.read_range(words, "" if unit == "each" else unit)
    if read.value is None or read.low is None or read.high is None:
        return None, read.problem
    if read.low < 0 or (most is not None and read.high > most):
        return None, "Less than nothing." if read.low < 0 else f"More than {most:,.0f}."
    if read.low == read.high:
        return Entry(read.value, Known.TYPED, typed=words.strip()), ""
    return Entry(read.value, Known.TYPED, read.low, read.high, tbc=True, typed=words.strip()), ""


def entry_words(entry: Entry | None) -> str:
    """An entry as it is typed again."""
    if entry is None:
        return ""
    if entry.low is not None and entry.high is not None and entry.low < entry.high:
        return f"{measure.show_number(entry.low, None)} to {measure.show_number(entry.high, None)}"
    return measure.show_number(entry.value, None)


def _lay_out(form: QWidget, title: CutLabel, trouble: QLabel, parts: Sequence[QWidget]) -> None:
    """What it is of, and what is wrong, over one row of boxes and buttons."""
    column, head, row = QVBoxLayout(form), QHBoxLayout(), QHBoxLayout()
    column.setContentsMargins(12, 6, 12, 8)
    column.setSpacing(4)
    head.addWidget(title, 1)
    head.addWidget(trouble)
    row.setSpacing(8)
    for part in parts:
        row.addWidget(part)
    row.addStretch(1)
    column.addLayout(head)
    column.addLayout(row)
