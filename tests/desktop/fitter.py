"""A fitter at the real window: what can be seen, pressed and typed, and nothing else."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from tundish.desktop.app import Program
from tundish.desktop.boxes import Box, NoteBox, TickBox
from tundish.desktop.chooser import Chooser
from tundish.desktop.forms import FormRow
from tundish.estimate import Estimate

WAIT_MS = 60_000


class Fitter:
    """Works the window by what it shows."""

    def __init__(self, program: Program, qtbot: QtBot) -> None:
        self.window, self.workspace, self.qtbot = program.window, program.shell.workspace, qtbot

    def page(self, keys: str) -> QWidget:
        """Go to a page by its keys, such as "Alt+1"."""
        modifier = Qt.KeyboardModifier.AltModifier
        QTest.keyClick(self.window, Qt.Key(int(Qt.Key.Key_0) + int(keys[-1])), modifier)
        page = self.window.frame.pages.currentWidget()
        assert page is not None
        return page

    def open(self, number: str) -> None:
        """Open a job of the list by its number, with Enter."""
        self.page("Alt+0")
        table = self.window.page("jobs").table  # type: ignore[union-attr]  # the page of the jobs has one
        table.choose(str(self.workspace.store.find(number)))
        table.setFocus()
        QTest.keyClick(table, Qt.Key.Key_Return)

    def undo(self) -> None:
        """Take the last step back."""
        QTest.keyClick(self.window, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)

    def press(self, words: str, within: QWidget | None = None) -> None:
        """Press the button with these words."""
        self.qtbot.waitUntil(lambda: bool(self._buttons(words, within)), timeout=WAIT_MS)
        QTest.mouseClick(self._buttons(words, within)[0], Qt.MouseButton.LeftButton)

    def _buttons(self, words: str, within: QWidget | None) -> list[QPushButton]:
        return [
            each
            for each in (within or self.window).findChildren(QPushButton)
            if " ".join(each.text().split()) == words and each.isVisible() and each.isEnabled()
        ]

    def type_into(self, row: FormRow, words: str) -> None:
        """Put a value into the box of a row by the keyboard, and take it with Enter or Tab."""
        box = row.box
        box.setFocus()
        if isinstance(box, Chooser):
            self._choose(box, words)
        elif isinstance(box, TickBox):
            if box.isChecked() != (words == "yes"):
                QTest.keyClick(box, Qt.Key.Key_Space)
        elif isinstance(box, Box | NoteBox):
            QTest.keyClick(box, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
            QTest.keyClick(box, Qt.Key.Key_Delete)
            self._write(box, words)
            QTest.keyClick(box, Qt.Key.Key_Tab if isinstance(box, NoteBox) else Qt.Key.Key_Return)

    @staticmethod
    def _write(box: Box | NoteBox, words: str) -> None:
        """Letter by letter; signs that are on no key are pasted, as a fitter would."""
        for sign in words:
            if sign == "\n":
                QTest.keyClick(box, Qt.Key.Key_Return)
            elif sign.isascii():
                QTest.keyClicks(box, sign)
            else:
                QApplication.clipboard().setText(sign)
                box.paste()

    def settled(self) -> Estimate:
        """Wait until every figure shown is of the job as it is, and give the estimate that is shown."""
        self.qtbot.waitUntil(self._at_rest, timeout=WAIT_MS)
        assert self.workspace.estimate is not None
        return self.workspace.estimate

    def _at_rest(self) -> bool:
        if self.workspace.busy:
            return False
        # A last answer may still be on its way from the worker's thread, and taking it may ask for a better one.
        QApplication.processEvents()
        return self._shown_is_now() and not self.workspace.busy

    def _shown_is_now(self) -> bool:
        return self.workspace.estimate is not None and self.workspace.estimate.job is self.workspace.job

    def price(self) -> str:
        """The price as the Tally says it."""
        said = [each.accessibleName() for each in self.window.tally.findChildren(QWidget) if each.isVisible()]
        return next(words for words in said if words.startswith(("Price", "Materials only")))

    @staticmethod
    def _choose(box: Chooser, words: str) -> None:
        wanted = box.findText(words)
        assert wanted >= 0, f"{words} is not in the list"
        key = Qt.Key.Key_Down if wanted > box.currentIndex() else Qt.Key.Key_Up
        while box.currentIndex() != wanted:
            QTest.keyClick(box, key)
