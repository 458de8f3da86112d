"""A row of choices: one is taken, the arrows go along it, and a narrow one has more lines."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.desktop.hands import click, key
from tundish.desktop.chips import Chip, ChipRow, Choice
from tundish.desktop.words import button

CHOICES = (
    Choice("room", "Room", "6 of 6", "tick", "settled", "all known"),
    Choice("floor", "Floor", "7 of 7", "half", "tbc", "to be confirmed"),
    Choice("stack", "Stack", "5 of 5"),
)


@pytest.fixture
def row(qtbot: QtBot) -> ChipRow:
    made = ChipRow("Groups")
    made.set_choices(CHOICES, "room")
    made.resize(600, 40)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def chips(row: ChipRow) -> list[Chip]:
    return row.findChildren(Chip)


def test_pressing_one_takes_it_and_lets_the_other_go(row: ChipRow, qtbot: QtBot) -> None:
    chosen = QSignalSpy(row.chosen)
    click(chips(row)[2])
    assert row.taken() == "stack"
    assert [chip.isChecked() for chip in chips(row)] == [False, False, True]
    assert chosen.at(0) == ["stack"]


def test_the_one_taken_stays_taken_when_pressed_again(row: ChipRow, qtbot: QtBot) -> None:
    click(chips(row)[0])
    assert row.taken() == "room"


def test_taking_one_from_outside_says_nothing(row: ChipRow) -> None:
    chosen = QSignalSpy(row.chosen)
    row.take("floor")
    assert row.taken() == "floor"
    assert chosen.count() == 0


def test_tab_stops_once_and_arrows_go_along_and_round(row: ChipRow) -> None:
    assert [bool(chip.focusPolicy() & Qt.FocusPolicy.TabFocus) for chip in chips(row)] == [True, False, False]
    chips(row)[0].setFocus()
    taken = []
    for _ in range(3):
        key(Qt.Key.Key_Right)
        taken.append(row.taken())
    assert taken == ["floor", "stack", "room"]


def test_count_and_state_are_read_out(row: ChipRow) -> None:
    assert [chip.accessibleName() for chip in chips(row)] == ["Room 6 of 6, all known", "Floor 7 of 7, to be confirmed", "Stack 5 of 5"]


def test_a_narrow_row_needs_a_second_line(row: ChipRow) -> None:
    one = row.heightForWidth(600)
    assert row.heightForWidth(250) > one
    row.resize(250, row.heightForWidth(250))
    assert all(row.rect().contains(chip.geometry()) for chip in chips(row))


def test_fewer_choices_take_chips_away(row: ChipRow, qapp: QApplication) -> None:
    row.set_choices(CHOICES[:1], "room")
    assert [chip.text() for chip in chips(row) if not chip.isHidden()][:1] == ["Room"]
    assert row.sizeHint().width() < 200


def test_a_button_beside_the_row_is_its_glyph_where_the_row_would_go_on_in_a_second_line(qtbot: QtBot) -> None:
    row, tool = ChipRow("Pre-walls of the room"), button("Remove this pre-wall", "cross")
    qtbot.addWidget(row)
    qtbot.addWidget(tool)
    row.set_choices((Choice("0", "Wall A, WC wall"), Choice("1", "Wall B, Basin wall")), "0")
    row.show()
    whole = tool.sizeHint().width()
    row.make_room(tool, row.sizeHint().width() + whole + 40)
    assert tool.sizeHint().width() == whole
    row.make_room(tool, row.sizeHint().width() + whole // 2)
    assert tool.sizeHint().width() < whole // 2
    row.hide()
    row.make_room(tool, whole)
    assert tool.sizeHint().width() == whole
