"""A whole survey of a room with six walls, typed by the keyboard alone, from an empty job to a price."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QWidget

from tests.desktop.fitter import Fitter
from tests.desktop.hands import focused, key
from tundish.desktop.boxes import Box
from tundish.desktop.chips import Chip
from tundish.desktop.chooser import Chooser
from tundish.desktop.forms import FormRow
from tundish.desktop.pages.survey import SurveyPage
from tundish.field import Entry
from tundish.figure import Known

SURVEY: Final = "rooms.0.survey"
MOST_TABS: Final = 300
WALLS: Final = (("B", "1200", ""), ("C", "900", ""), ("D", "800", "270"), ("E", "1500", ""), ("F", "2000", ""))
"""Wall A is 2,400: an L whose last corners stand square."""


def path_of(box: QWidget) -> str:
    row = box.parent()
    return row.path if isinstance(row, FormRow) else ""


class Keyboard:
    """Goes about the survey by Tab, arrows, Enter and typing; it never points at anything."""

    def __init__(self, page: SurveyPage) -> None:
        self.page = page

    def to(self, wanted: Callable[[QWidget], bool]) -> QWidget:
        """Press Tab until what has the keyboard is what is wanted."""
        for _ in range(MOST_TABS):
            if wanted(focused()):
                return focused()
            key(Qt.Key.Key_Tab)
            QApplication.processEvents()
        raise AssertionError("never reached with Tab")

    def group(self, words: str) -> None:
        """Go to the row of groups and along it to one."""
        self.to(lambda each: isinstance(each, Chip) and self.page.isAncestorOf(each))
        for _ in range(20):
            chip = focused()
            if isinstance(chip, Chip) and chip.choice.text == words:
                return
            key(Qt.Key.Key_Right)
        raise AssertionError(f"no group {words}")

    def press(self, words: str) -> None:
        """Go to a button and press it with Enter."""
        self.to(lambda each: isinstance(each, QAbstractButton) and each.accessibleName() == words)
        key(Qt.Key.Key_Return)

    def fill(self, path: str, words: str) -> None:
        """Go to the box of an input and type a value; Enter takes it."""
        row = self.to(lambda each: path_of(each) == path)
        if isinstance(row, Chooser):
            wanted = row.findText(words)
            assert wanted >= 0, words
            while row.currentIndex() != wanted:
                key(Qt.Key.Key_Down if wanted > row.currentIndex() else Qt.Key.Key_Up)
            return
        assert isinstance(row, Box)
        key(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        QTest.keyClicks(row, words)
        key(Qt.Key.Key_Return)


def entry(given: Entry | None) -> Entry:
    """What was given, which is not blank."""
    assert given is not None
    return given


@pytest.fixture
def keyboard(fitter: Fitter) -> Keyboard:
    fitter.page("Alt+0")
    fitter.press("Start a survey")
    fitter.settled()
    page = fitter.window.page("survey")
    assert isinstance(page, SurveyPage)
    box = page.first_box()
    assert box is not None
    fitter.qtbot.waitUntil(lambda: QApplication.focusWidget() is not None, timeout=2_000)
    return Keyboard(page)


def test_a_room_of_six_walls_is_surveyed_by_the_keyboard_alone(fitter: Fitter, keyboard: Keyboard) -> None:
    for name, words in (("width", "2400"), ("depth", "2.0 m"), ("height", "2380 2376 2383")):
        keyboard.fill(f"{SURVEY}.room.{name}", words)
    for name, words in (("from_left", "210"), ("from_wall", "130"), ("branch_invert", "170+6")):
        keyboard.fill(f"{SURVEY}.stack.{name}", words)
    keyboard.press("Add a layer")
    keyboard.fill(f"{SURVEY}.floor.build_up.0.what", "Tile and adhesive")
    keyboard.fill(f"{SURVEY}.floor.build_up.0.thickness", "12 to 16")
    keyboard.press("Add WC")
    keyboard.press("Add Basin")

    keyboard.group("Walls")
    for place, (letter, length, corner) in enumerate(WALLS):
        keyboard.press(f"Add wall {letter}")
        keyboard.fill(f"{SURVEY}.walls.{place}.length", length)
        if corner:
            keyboard.fill(f"{SURVEY}.walls.{place}.corner", corner)
    keyboard.group("Room")
    keyboard.press("Add an opening")
    keyboard.fill(f"{SURVEY}.openings.0.wall", "E")
    keyboard.fill(f"{SURVEY}.openings.0.from_left", "400")
    key(Qt.Key.Key_U, Qt.KeyboardModifier.ControlModifier)
    keyboard.press("Add something in the way")
    keyboard.fill(f"{SURVEY}.obstacles.0.wall", "F")
    keyboard.group("Stack")
    keyboard.press("Add a waste entry")
    keyboard.fill(f"{SURVEY}.entries.0.wall", "B")
    keyboard.fill(f"{SURVEY}.entries.0.invert", "-60")
    keyboard.group("Electrics")
    keyboard.press("Add something electrical")
    keyboard.fill(f"{SURVEY}.electrics.0.height", "6 ft")

    estimate = fitter.settled()
    room, survey = estimate.rooms[0], estimate.job.rooms[0].survey
    assert [side.letter for side in room.sides] == ["A", "B", "C", "D", "E", "F"]
    assert [side.length.value for side in room.sides] == [2400, 1200, 900, 800, 1500, 2000]
    assert not [each.text for each in room.problems if "wall" in each.text and "close" in each.text]
    assert entry(survey.stack.branch_invert).value == 176
    assert entry(survey.stack.branch_invert).known is Known.MEASURED
    assert entry(survey.room.height).readings == (2380, 2376, 2383)
    assert survey.openings[0].wall == "E"
    assert entry(survey.openings[0].width).known is Known.ASSUMED
    assert round(entry(survey.electrics[0].height).value) == 1829
    assert {placed.kind for placed in room.placed} == {"wc", "basin"}
    assert estimate.lines
    assert fitter.price().startswith(("Price", "Materials only"))
