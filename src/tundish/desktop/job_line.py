"""The job line along the top: whose job, which room, which floor heights are from, and what works on every page."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.chooser import Chooser
from tundish.desktop.painted import IconButton, Painted, panel, pen, width_of, write
from tundish.desktop.words import CutLabel, label

BARE: Final = "bare"
FINISH: Final = "finish"


class SavedWord(Painted):
    """When the job was saved; in red lead, and a button, while it could not be."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self.bad = False
        self.setProperty("ground", "slate")
        self.show_word("", bad=False)

    def show_word(self, text: str, *, bad: bool) -> None:
        """Show the word."""
        self.bad = bad
        self.setText(text)
        self.setAccessibleName(f"{text}. Save somewhere else" if bad else text)
        self.setToolTip("Save somewhere else" if bad else "")
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus if bad else Qt.FocusPolicy.NoFocus)
        self.updateGeometry()
        self.update()

    def measure(self) -> QSize:
        """How large it wants to be."""
        px = look.now().px
        return QSize(width_of(self.text(), self._role()) + (px(20) if self.bad else px(2)), px(30))

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        room = self.rect()
        if self.bad:
            panel(painter, QRectF(room), fill=look.colour("failsWash"), edge=pen("fails"))
            room = room.adjusted(look.now().px(10), 0, 0, 0)
        write(painter, room, self.text(), self._role(), "fails" if self.bad else "slateText2")

    def _role(self) -> str:
        return "tableStrong" if self.bad else "table"


class JobLine(QWidget):
    """Whose job and which room; the floor switch; undo, redo, find and print; and when it was saved."""

    room_asked = Signal(int)
    floor_asked = Signal(str)
    undo_asked = Signal()
    redo_asked = Signal()
    find_asked = Signal()
    print_asked = Signal()
    save_elsewhere_asked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Job line")
        self._client = CutLabel("section", "slateText")
        self._address = CutLabel("table", "slateText2")
        self._rooms = Chooser("Room", on_slate=True)
        self._rooms.setMinimumContentsLength(15)
        self._floor_words = label("Heights from", "table", "slateText2")
        self._floors = ChipRow("Heights from", on_slate=True)
        self._undo = IconButton("undo", "Nothing to undo", "slateText")
        self._redo = IconButton("redo", "Nothing to do again", "slateText")
        self._find = IconButton("find", "Find anything (Ctrl+F)", "slateText")
        self._print = IconButton("print", "Print this page (Ctrl+P)", "slateText")
        self._saved = SavedWord()
        self._lay_out()
        self._connect()
        self.set_undo(None)
        self.set_redo(None)
        self.set_floor(BARE, 0)
        self.set_job("", "")

    def set_job(self, client: str, address_line: str) -> None:
        """Name the job; with no client there is no job open and only Find is left."""
        self._client.setText(client or "No job open")
        self._address.setText(address_line if client else "Open one below, or start a survey")
        for each in (self._rooms, self._floor_words, self._floors, self._undo, self._redo, self._print, self._saved):
            each.setVisible(bool(client))

    def set_rooms(self, names: tuple[str, ...], current: int) -> None:
        """The rooms to choose from and the one that is open, without a signal."""
        self._rooms.show_choices(names, current)

    def set_floor(self, floor: str, build_up_mm: float | None) -> None:
        """Which floor heights are shown from, "bare" or "finish", and what lies between them in mm."""
        raised = "" if build_up_mm is None else f" {measure.show_length(build_up_mm, sign=True)}"
        self._floors.set_choices((Choice(BARE, "Bare floor"), Choice(FINISH, f"Finished floor{raised}")), floor)

    def set_undo(self, words: str | None) -> None:
        """What Undo would undo ("move WC 1 20 mm"), or None."""
        self._undo.setEnabled(words is not None)
        self._undo.set_words(f"Undo {words} (Ctrl+Z)" if words is not None else "Nothing to undo")

    def set_redo(self, words: str | None) -> None:
        """What Redo would do again, or None."""
        self._redo.setEnabled(words is not None)
        self._redo.set_words(f"Do again: {words} (Ctrl+Y)" if words is not None else "Nothing to do again")

    def set_saved(self, text: str, *, bad: bool = False) -> None:
        """When it was saved ("Saved 19:41"), or loudly that it was not: then a press asks to save somewhere else."""
        self._saved.show_word(text, bad=bad)

    def floor(self) -> str:
        """The floor that heights are shown from."""
        return self._floors.taken()

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), look.colour("slate"))

    def _save_elsewhere(self) -> None:
        if self._saved.bad:
            self.save_elsewhere_asked.emit()

    def _lay_out(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 0, 16, 0)
        row.setSpacing(8)
        for each in (self._client, self._address):
            row.addWidget(each)
        row.addSpacing(10)
        row.addWidget(self._rooms)
        row.addSpacing(16)
        row.addWidget(self._floor_words)
        row.addWidget(self._floors, 0, Qt.AlignmentFlag.AlignVCenter)
        row.addStretch(1)
        for button in (self._undo, self._redo, self._find, self._print):
            row.addWidget(button)
        row.addSpacing(8)
        row.addWidget(self._saved)

    def _connect(self) -> None:
        self._rooms.activated.connect(self.room_asked)
        self._floors.chosen.connect(self.floor_asked)
        self._undo.clicked.connect(self.undo_asked)
        self._redo.clicked.connect(self.redo_asked)
        self._find.clicked.connect(self.find_asked)
        self._print.clicked.connect(self.print_asked)
        self._saved.clicked.connect(self._save_elsewhere)
        for each in (self._undo, self._redo, self._find, self._print, self._rooms):
            each.setProperty("ground", "slate")
            each.setFocusPolicy(Qt.FocusPolicy.TabFocus)
