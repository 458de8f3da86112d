"""A form over the open job: every row is one declared input, shown as it is known and set as it is typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from tundish import measure, typed
from tundish.desktop.boxes import Box, NoteBox, TickBox
from tundish.desktop.chooser import Chooser
from tundish.desktop.forms import Form, FormRow
from tundish.desktop.workspace import Workspace
from tundish.estimate import Job
from tundish.field import Entry, Field, NoSuchInputError, describe, get
from tundish.layout.appliances.kinds import KINDS
from tundish.session import Step

NONE: Final = "none"
WIDE: Final = {"number": 92, "money": 92, "date": 150, "text": 250, "choice": 190, "item": 300, "flag": 240}


class InputForm(Form):
    """Rows of inputs by path. `asked` tells which input the keyboard is in."""

    asked = Signal(str)

    def __init__(self, name: str, workspace: Workspace, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self.workspace = workspace
        self._codes: dict[str, list[str]] = {}
        self.taken.connect(self._taken)
        self.stepped.connect(self._stepped)
        self.entered.connect(self.asked)
        self.tbc_asked.connect(self._tbc_asked)
        workspace.job_changed.connect(self._changed)

    def input(self, path: str, *, label: str = "", note: str = "", lines: int = 0) -> FormRow:
        """Add the row of one input; `lines` makes a box for several lines of words."""
        declared = describe(Job, path)
        words = label or declared.label
        unit = "" if declared.unit in {"each", "£"} else declared.unit
        row = FormRow(path, words, self._box(path, declared, words, lines), unit=unit, note=note, box_wide=WIDE[declared.kind])
        row.setWhatsThis(declared.help)
        row.box.setWhatsThis(declared.help)
        self.add(row)
        self._show(row)
        return row

    def show_all(self) -> None:
        """Show every row as the job has it now."""
        for row in self.rows():
            self._show(row)

    def go_to(self, path: str) -> bool:
        """Put the keyboard into the box of an input; says whether there is one."""
        row = next((each for each in self.rows() if each.path == path), None)
        if row is None:
            return False
        # A row that was just added is shown by the next turn of the event loop; a box can only be entered once it is shown.
        row.show()
        row.box.show()
        self.ensureWidgetVisible(row)
        row.box.setFocus()
        return True

    def _box(self, path: str, declared: Field, words: str, lines: int) -> Box | NoteBox | Chooser | TickBox:
        match declared.kind:
            case "choice":
                made = Chooser(words)
                made.show_choices(declared.options, 0)
                return made
            case "item":
                items = self.workspace.book.of_kind(*_kinds(path, declared, self.workspace.job))
                self._codes[path] = ["", *(item.code for item in items)]
                made = Chooser(words)
                made.show_choices([NONE, *(item.name for item in items)], 0)
                return made
            case "flag":
                return TickBox(words)
            case "text" if lines:
                return NoteBox(words, lines=lines)
            case "text" | "date":
                return Box(words)
            case _:
                return Box(f"{words}, {declared.unit}" if declared.unit else words, figure=True)

    def _show(self, row: FormRow) -> None:
        declared = describe(Job, row.path)
        try:
            value = get(self.workspace.job, row.path)
        except NoSuchInputError:
            return
        if declared.kind == "item":
            row.show_value(self._name_of(str(value)))
        else:
            row.show_value(typed.shown(declared, value))
        if declared.kind == "number":
            self._show_number(row, declared, value)
        else:
            row.show_error("")

    def _show_number(self, row: FormRow, declared: Field, value: Entry | None) -> None:
        row.show_error("")
        if value is None:
            row.set_source("assumed" if declared.usual is not None else "")
            usual = f"usual {measure.show_amount(declared.usual, declared.unit)}" if declared.usual is not None else "needed"
            row.set_tag(usual, "tbc")
            return
        row.set_source(str(value.known))
        row.set_tag("TBC" if value.is_open else "")
        questions = [_unlikely(declared, value), typed.disagreement(declared, value)]
        row.show_question(" ".join(each for each in questions if each))

    def _taken(self, path: str, words: str) -> None:
        declared = describe(Job, path)
        row = self.row(path)
        if declared.kind == "item":
            place = row.box.currentIndex() if isinstance(row.box, Chooser) else 0
            self.workspace.set(path, self._codes[path][max(place, 0)])
            return
        value, problem = typed.taken(declared, words, get(self.workspace.job, path))
        problems: Sequence[str] = [problem] if problem else [each.text for each in self.workspace.set(path, value)]
        if problems:
            row.show_error(problems[0])
        else:
            self._show(row)

    def _stepped(self, path: str, step: int) -> None:
        declared = describe(Job, path)
        value = get(self.workspace.job, path)
        if declared.kind != "number":
            return
        before = value.value if isinstance(value, Entry) else declared.usual or 0.0
        entry = value if isinstance(value, Entry) else Entry(before, declared.known)
        self.workspace.set(path, replace(entry, value=before + step, low=None, high=None, typed="", readings=()), joined=True)

    def _tbc_asked(self, path: str) -> None:
        value = get(self.workspace.job, path)
        if isinstance(value, Entry):
            self.workspace.set(path, replace(value, tbc=not value.tbc))

    def _changed(self, step: Step) -> None:
        if step.path in {row.path for row in self.rows()}:
            self._show(self.row(step.path))
        else:
            self.show_all()

    def _name_of(self, code: str) -> str:
        item = self.workspace.book.items.get(code)
        return item.name if item else NONE


def _kinds(path: str, declared: Field, job: Job) -> tuple[str, ...]:
    """The kinds of item an input may hold; an appliance's model and frame are of the appliance's own kind."""
    parent, _, name = path.rpartition(".")
    if name not in {"ware", "frame"}:
        return declared.options
    kind = str(get(job, f"{parent}.kind"))
    return (KINDS[kind].frame,) if name == "frame" else (KINDS[kind].ware,)


def _unlikely(declared: Field, value: Entry) -> str:
    if declared.likely is None or declared.likely[0] <= value.value <= declared.likely[1]:
        return ""
    low, high = declared.likely
    return f"Unlikely: usually {measure.show_range(low, high, declared.unit)}. Kept as typed."
