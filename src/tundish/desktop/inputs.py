"""A form over the open job: every row is one declared input, shown as it is known and set as it is typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QMenu, QWidget

from tundish import measure, typed
from tundish.catalogue.own import with_own
from tundish.desktop import icons, or_menu
from tundish.desktop.boxes import Box, NoteBox, TickBox
from tundish.desktop.chooser import Chooser
from tundish.desktop.forms import Form, FormRow
from tundish.desktop.workspace import Workspace
from tundish.estimate import Job
from tundish.field import Entry, Field, NoSuchInputError, describe, get
from tundish.figure import Known
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.shape import walls_of
from tundish.layout.undecided import CHOICES, in_words, place_of
from tundish.session import Step

if TYPE_CHECKING:
    from tundish.catalogue.book import Book

NONE: Final = "none"
WIDE: Final = {"number": 92, "money": 92, "date": 150, "text": 250, "choice": 190, "wall": 92, "item": 300, "flag": 240}


WAYS: Final = (
    ("Measured", Known.MEASURED, ""),
    ("Maker's sheet", Known.MAKER, ""),
    ("Agreed and signed", Known.AGREED, ""),
    ("Client's word", Known.AGREED, "client's word"),
    ("Typed by you", Known.TYPED, ""),
    ("Assumed, to be confirmed", Known.ASSUMED, ""),
)
"""How a value may be known: in words, its source, and the note kept with it."""


class InputForm(Form):
    """Rows of inputs by path. `asked` tells which input the keyboard is in."""

    asked = Signal(str)

    def __init__(self, name: str, workspace: Workspace, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self.workspace = workspace
        self._codes: dict[str, list[str]] = {}
        self._unusable: dict[str, tuple[str, str]] = {}
        self.taken.connect(self._taken)
        self.stepped.connect(self._stepped)
        self.entered.connect(self.asked)
        self.tbc_asked.connect(self._tbc_asked)
        self.usual_asked.connect(self._use_usual)
        self.known_asked.connect(self._ask_known)
        self.put_back.connect(self._forget)
        workspace.job_changed.connect(self._changed)
        workspace.job_opened.connect(self._unusable.clear)

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
        if path in self._unusable and isinstance(row.box, Box):
            words, problem = self._unusable[path]
            row.box.setText(words)
            row.show_error(problem)
        return row

    def show_all(self) -> None:
        """Show every row as the job has it now; words that could not be used stay in their boxes."""
        for row in self.rows():
            if not row.bad:
                self._show(row)

    def go_to(self, path: str) -> bool:
        """Put the keyboard into the box of an input; says whether there is one."""
        row = next((each for each in self.rows() if each.path == path), None)
        if row is None:
            return False
        # A row that was just added is shown by the next turn of the event loop; a box can only be entered once it is shown.
        row.show()
        row.box.show()
        self.lay_out()
        self.ensureWidgetVisible(row)
        row.box.setFocus()
        return True

    @property
    def _book(self) -> Book:
        """The catalogue with the job's own ware in it."""
        return with_own(self.workspace.book, self.workspace.job.own_items)

    def _items(self, path: str, declared: Field) -> list[str]:
        """The names that an input of a kind of item offers; the codes they stand for are kept."""
        items = self._book.of_kind(*_kinds(path, declared, self.workspace.job))
        self._codes[path] = ["", *(item.code for item in items)]
        return [NONE, *(item.name for item in items)]

    def _choices(self, path: str, declared: Field) -> Sequence[str]:
        """What a chooser offers; of walls, those of the room and the one that is put in."""
        if declared.kind == "item":
            return self._items(path, declared)
        return self._walls(path) if declared.kind == "wall" else declared.options

    def _walls(self, path: str) -> tuple[str, ...]:
        job, found = self.workspace.job, place_of(path)
        there = walls_of(get(job, found[0]).survey) if found else ()
        return tuple(dict.fromkeys((*there, str(get(job, path)))))

    def _box(self, path: str, declared: Field, words: str, lines: int) -> Box | NoteBox | Chooser | TickBox:
        match declared.kind:
            case "choice" | "wall" | "item":
                made = Chooser(words)
                made.show_choices(self._choices(path, declared), 0)
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
        if declared.kind in {"item", "wall"} and isinstance(row.box, Chooser):
            row.box.show_choices(self._choices(row.path, declared), 0)
            row.show_value(self._words_of(declared, str(value)))
        else:
            row.show_value(typed.shown(declared, value))
        if declared.kind == "number":
            self._show_number(row, declared, value)
        elif declared.kind in CHOICES and place_of(row.path):
            self._show_open(row, declared)
        else:
            row.show_error("")

    def _show_open(self, row: FormRow, declared: Field) -> None:
        """What else a choice may still be, under its box."""
        open_ = [self._words_of(declared, each) for each in or_menu.others_at(self.workspace.job, row.path)]
        row.offer_or(offered=True)
        row.set_tag("TBC" if open_ else "")
        row.show_question(f"{typed.OR.join(['', *open_]).strip()}: still open" if open_ else "")

    def _show_number(self, row: FormRow, declared: Field, value: Entry | None) -> None:
        row.show_error("")
        if value is None:
            rate = declared.known is Known.RATE
            row.set_source(str(Known.RATE if rate else Known.ASSUMED) if declared.usual is not None else "")
            usual = f"usual {measure.show_amount(declared.usual, declared.unit)}" if declared.usual is not None else "needed"
            row.set_tag("" if declared.usual is None and may_be_blank(declared) else usual, "settled" if rate else "tbc")
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
            if self.workspace.set(path, self._codes[path][max(place, 0)]):
                self._show(row)
            return
        value, problem = typed.taken(declared, words, get(self.workspace.job, path))
        problems: Sequence[str] = [problem] if problem else [each.text for each in self.workspace.set(path, value)]
        if problems and declared.kind in {"choice", "flag"}:
            self.workspace.said.emit(problems[0])
            self._show(row)
        elif problems:
            self._unusable[path] = (words, problems[0])
            row.show_error(problems[0])
        elif path in {each.path for each in self.rows()}:
            self._forget(path)
            self._show(self.row(path))

    def _stepped(self, path: str, step: int) -> None:
        declared = describe(Job, path)
        value = get(self.workspace.job, path)
        if declared.kind != "number":
            return
        before = value.value if isinstance(value, Entry) else declared.usual or 0.0
        entry = value if isinstance(value, Entry) else Entry(before, declared.known)
        self.workspace.set(path, replace(entry, value=before + step, low=None, high=None, typed="", readings=()), joined=True)

    def _tbc_asked(self, path: str) -> None:
        value, declared = get(self.workspace.job, path), describe(Job, path)
        if declared.kind in CHOICES and place_of(path):
            self._ask_or(path, declared)
        if isinstance(value, Entry):
            self.workspace.set(path, replace(value, tbc=not value.tbc))

    def _ask_or(self, path: str, declared: Field) -> None:
        """Show what else the choice of a row may be; what is ticked is left open beside what the box has."""
        row, first = self.row(path), in_words(get(self.workspace.job, path))
        codes = self._codes[path] if declared.kind == "item" else self._choices(path, declared) or (typed.YES, "no")
        values = [(code, self._words_of(declared, code)) for code in codes if code != first]
        taken = or_menu.others_at(self.workspace.job, path)
        or_menu.asked(row, values, taken, lambda now: self.workspace.set(path, (first, *now)))

    def _words_of(self, declared: Field, value: str) -> str:
        return self._name_of(value) if declared.kind == "item" else value

    def _use_usual(self, path: str) -> None:
        """Fill a blank box with its usual size, marked assumed."""
        declared = describe(Job, path)
        if declared.kind == "number" and declared.usual is not None and get(self.workspace.job, path) is None:
            self._forget(path)
            self.workspace.set(path, Entry(declared.usual, Known.ASSUMED))

    def _ask_known(self, path: str) -> None:
        """Show the ways in which the value of a row may be known; the one taken is kept with it."""
        value = get(self.workspace.job, path)
        if not isinstance(value, Entry):
            return
        row = self.row(path)
        menu = QMenu(row)
        menu.setAccessibleName(f"How {row.label} is known")
        menu.aboutToHide.connect(menu.deleteLater)
        for words, known, note in WAYS:
            way = menu.addAction(icons.icon(icons.SOURCES[str(known)]), words)
            way.triggered.connect(lambda _=False, known=known, note=note: self._set_known(path, known, note))
            if value.known is known and (value.note == note or not note):
                menu.setActiveAction(way)
        menu.popup(row.mapToGlobal(row.mark_room().bottomLeft()))

    def _set_known(self, path: str, known: Known, note: str) -> None:
        value = get(self.workspace.job, path)
        if isinstance(value, Entry):
            said = {each for _, _, each in WAYS}
            self.workspace.set(path, replace(value, known=known, note=note or ("" if value.note in said else value.note)))

    def _forget(self, path: str) -> None:
        """The words in a box can be used, or were put back."""
        self._unusable.pop(path, None)
        row = next((each for each in self.rows() if each.path == path), None)
        if row is not None and row.bad:
            row.show_error("")

    def _changed(self, step: Step) -> None:
        gone = f"{step.path}."
        self._unusable = {path: words for path, words in self._unusable.items() if not path.startswith(gone)}
        if step.path in {row.path for row in self.rows()}:
            self._forget(step.path)
            self._show(self.row(step.path))
        if step.path.startswith("own_items.") or step.path not in {row.path for row in self.rows()}:
            self.show_all()

    def _name_of(self, code: str) -> str:
        item = self._book.items.get(code)
        return item.name if item else NONE


def _kinds(path: str, declared: Field, job: Job) -> tuple[str, ...]:
    """The kinds of item an input may hold; an appliance's model and frame are of the appliance's own kind."""
    parent, _, name = path.rpartition(".")
    if name not in {"ware", "frame"}:
        return declared.options
    kind = str(get(job, f"{parent}.kind"))
    return (KINDS[kind].frame,) if name == "frame" else (KINDS[kind].ware,)


def may_be_blank(declared: Field) -> bool:
    """Whether its help says what a blank stands for, so that nothing is missing."""
    return "Blank" in declared.help


def _unlikely(declared: Field, value: Entry) -> str:
    if declared.likely is None or declared.likely[0] <= value.value <= declared.likely[1]:
        return ""
    low, high = declared.likely
    return f"Unlikely: usually {measure.show_range(low, high, declared.unit)}. Kept as typed."
