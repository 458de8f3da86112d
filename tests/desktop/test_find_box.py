"""Find anything: what is found, and where Enter goes."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.desktop.fitter import Fitter
from tests.desktop.journeys.conftest import fitter
from tests.desktop.spoken_names import nameless
from tundish.desktop.find_box import FindBox
from tundish.desktop.finding import find

__all__ = ["fitter"]


def look_for(fitter: Fitter, words: str) -> FindBox:
    fitter.open("102")
    fitter.settled()
    QTest.keyClick(fitter.window, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    box = fitter.window.findChild(FindBox)
    assert box is not None
    assert QApplication.focusWidget() is box.box
    QTest.keyClicks(box.box, words)
    return box


def test_every_word_must_be_there_and_no_word_finds_nothing(fitter: Fitter) -> None:
    look_for(fitter, "")
    assert find(fitter.workspace, "") == ()
    for found in find(fitter.workspace, "basin top"):
        text = f"{found.words} {found.value} {found.where}".lower()
        assert "basin" in text
        assert "top" in text
    assert find(fitter.workspace, "zebra crossing") == ()


def test_enter_goes_to_the_box_of_an_input(fitter: Fitter) -> None:
    box = look_for(fitter, "branch invert")
    assert box.table.chosen() == "input:rooms.0.survey.stack.branch_invert"
    QTest.keyClick(box.box, Qt.Key.Key_Return)
    assert not box.isVisible()
    assert fitter.window.current == "survey"
    focused = QApplication.focusWidget()
    assert focused is not None
    assert focused.accessibleName().startswith("Branch invert")


def test_a_term_is_found_on_pricing(fitter: Fitter) -> None:
    box = look_for(fitter, "mark-up on")
    QTest.keyClick(box.box, Qt.Key.Key_Return)
    assert fitter.window.current == "pricing"


def test_a_line_is_chosen_on_materials(fitter: Fitter) -> None:
    box = look_for(fitter, "strut slotted materials")
    line = box.table.chosen()
    assert line.startswith("line:strut")
    QTest.keyClick(box.box, Qt.Key.Key_Return)
    page = fitter.window.page("materials")
    assert fitter.window.current == "materials"
    assert page.table.chosen() == line  # type: ignore[union-attr]  # the page has a table


def test_a_rule_is_read_on_rates_and_rules(fitter: Fitter) -> None:
    box = look_for(fitter, "every face pre-wall boarded")
    QTest.keyClick(box.box, Qt.Key.Key_Return)
    page = fitter.window.page("rates")
    assert fitter.window.current == "rates"
    assert page.sentences.chosen() == "rule:boards/board"  # type: ignore[union-attr]  # the page has a list of rules


def test_down_chooses_while_the_keyboard_stays_in_the_box(fitter: Fitter) -> None:
    box = look_for(fitter, "wc 1")
    first = box.table.chosen()
    QTest.keyClick(box.box, Qt.Key.Key_Down)
    assert box.table.chosen() != first
    assert QApplication.focusWidget() is box.box


def test_escape_leaves_and_gives_the_keyboard_back(fitter: Fitter) -> None:
    fitter.open("102")
    before = QApplication.focusWidget()
    QTest.keyClick(fitter.window, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    box = fitter.window.findChild(FindBox)
    assert box is not None
    QTest.keyClick(box.box, Qt.Key.Key_Escape)
    assert not box.isVisible()
    assert QApplication.focusWidget() is before


def test_every_control_has_a_name(fitter: Fitter) -> None:
    assert nameless(look_for(fitter, "strut")) == []
