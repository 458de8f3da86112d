"""The strips along the top and the bottom."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QAbstractButton, QLabel
from pytestqt.qtbot import QtBot

from tests.desktop.hands import click
from tundish.desktop.chips import Chip
from tundish.desktop.chooser import Chooser
from tundish.desktop.job_line import JobLine, SavedWord
from tundish.desktop.painted import IconButton
from tundish.desktop.tally import Amount, StopButton, Tally


@pytest.fixture
def line(qtbot: QtBot) -> JobLine:
    made = JobLine()
    made.resize(1366, 44)
    qtbot.addWidget(made)
    made.set_job("Mrs J. Ostlethwaite", "14 Quillet Lane · Job 047")
    made.set_rooms(("Family bathroom", "Cloakroom"), 0)
    made.show()
    return made


@pytest.fixture
def tally(qtbot: QtBot) -> Tally:
    made = Tally()
    made.resize(1366, 34)
    qtbot.addWidget(made)
    made.show()
    return made


def named(line: JobLine, begins: str) -> QAbstractButton:
    return next(each for each in line.findChildren(IconButton) if each.accessibleName().startswith(begins))


def test_choosing_a_room_asks_for_its_place(line: JobLine, qtbot: QtBot) -> None:
    rooms = line.findChild(Chooser)
    assert isinstance(rooms, Chooser)
    asked = QSignalSpy(line.room_asked)
    QTest.keyClick(rooms, Qt.Key.Key_Down)
    assert asked.at(0) == [1]


def test_showing_a_room_asks_for_nothing(line: JobLine) -> None:
    asked = QSignalSpy(line.room_asked)
    line.set_rooms(("Family bathroom", "Cloakroom", "En suite"), 2)
    assert asked.count() == 0


def test_the_floor_is_switched_and_says_what_lies_between(line: JobLine, qtbot: QtBot) -> None:
    line.set_floor("bare", 28)
    bare, finish = line.findChildren(Chip)
    assert (bare.text(), finish.text()) == ("Bare floor", "Finished floor +28")
    with qtbot.waitSignal(line.floor_asked) as asked:
        click(finish)
    assert asked.args == ["finish"]


def test_half_a_millimetre_of_build_up_is_shown(line: JobLine) -> None:
    line.set_floor("bare", 12.5)
    assert line.findChildren(Chip)[1].text() == "Finished floor +12.5"


def test_an_unknown_build_up_is_left_out(line: JobLine) -> None:
    line.set_floor("bare", None)
    assert line.findChildren(Chip)[1].text() == "Finished floor"


def test_undo_says_what_it_would_undo_and_is_dim_without(line: JobLine, qtbot: QtBot) -> None:
    assert not named(line, "Nothing to undo").isEnabled()
    line.set_undo("move WC 1 20 mm")
    with qtbot.waitSignal(line.undo_asked):
        click(named(line, "Undo move WC 1 20 mm"))


def test_without_a_job_only_find_is_left(line: JobLine) -> None:
    line.set_job("", "")
    shown = [each.accessibleName() for each in line.findChildren(QAbstractButton) if each.isVisible()]
    assert shown == ["Find anything (Ctrl+F)"]
    assert any(each.text() == "No job open" for each in line.findChildren(QLabel))


def test_not_saved_is_a_button_to_save_somewhere_else(line: JobLine, qtbot: QtBot) -> None:
    word = line.findChild(SavedWord)
    assert isinstance(word, SavedWord)
    asked = QSignalSpy(line.save_elsewhere_asked)
    line.set_saved("Saved 19:41")
    click(word)
    line.set_saved("Not saved since 19:41: disk full", bad=True)
    click(word)
    assert asked.count() == 1
    assert word.accessibleName() == "Not saved since 19:41: disk full. Save somewhere else"


def shown_amounts(tally: Tally) -> list[str]:
    return [each.accessibleName() for each in tally.findChildren(Amount) if each.isVisible() and each.text() != "Price inc. VAT"]


AMOUNTS = [("Strut", "9.06 m"), ("Soil 110", "0.86 m"), ("Boards", "4"), ("Materials", "£971.31")]


def test_amounts_are_shown_and_can_be_asked_about(tally: Tally, qtbot: QtBot) -> None:
    tally.set_amounts(AMOUNTS)
    assert shown_amounts(tally) == ["Strut 9.06 m", "Soil 110 0.86 m", "Boards 4", "Materials £971.31"]
    with qtbot.waitSignal(tally.amount_asked) as asked:
        click(tally.findChildren(Amount)[-1])
    assert asked.args == ["Materials"]


def test_amounts_without_room_are_left_out_whole(tally: Tally) -> None:
    tally.set_amounts(AMOUNTS)
    tally.set_price("Price inc. VAT", "£3,104.41")
    tally.resize(420, 34)
    assert shown_amounts(tally) == ["Strut 9.06 m"]


def test_with_nothing_to_count_it_says_so(tally: Tally) -> None:
    nothing = next(each for each in tally.findChildren(QLabel) if each.text() == "Tally: nothing to count yet")
    assert nothing.isVisible()
    tally.set_amounts(AMOUNTS)
    assert not nothing.isVisible()


def test_the_price_can_be_asked_about(tally: Tally, qtbot: QtBot) -> None:
    tally.set_price("Price inc. VAT", "£3,104.41")
    price = next(each for each in tally.findChildren(Amount) if each.text() == "Price inc. VAT")
    with qtbot.waitSignal(tally.price_asked):
        click(price)


def test_long_work_is_shown_with_a_stop_until_it_ends(tally: Tally, qtbot: QtBot) -> None:
    stop = tally.findChild(StopButton)
    assert isinstance(stop, StopButton)
    tally.set_working("Cut list, 3 of 5 materials", 0.6)
    with qtbot.waitSignal(tally.stop_asked):
        click(stop)
    tally.set_working("", None)
    assert not stop.isVisible()


def test_what_was_done_is_said_without_a_stop(tally: Tally) -> None:
    stop = tally.findChild(StopButton)
    assert isinstance(stop, StopButton)
    tally.set_working("Cut list, 3 of 5 materials", 0.6)
    tally.say("Undone: set Top")
    assert "Undone: set Top" in [each.text() for each in tally.findChildren(QLabel) if each.isVisible()]
    assert not stop.isVisible()
