"""Where from: a figure and the lines it adds up from, links to other figures, and the keyboard through it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton
from pytestqt.qtbot import QtBot

from tests.desktop.hands import click, key
from tundish.desktop import theme
from tundish.desktop.look import Look
from tundish.desktop.receipt import Action, ReceiptLine, Section, WhereFromView
from tundish.desktop.receipt_rows import Heading, LineRow
from tundish.desktop.where_from import WhereFrom

VIEW = WhereFromView(
    "Fixing studs, WC 1",
    "353",
    "mm",
    "above bare floor",
    tag="TBC",
    lines=(
        ReceiptLine("agreed", "Top of pan, finished floor", "420", "Client not signed yet", tbc=True, link="wc1.top"),
        ReceiptLine("maker's sheet", "Top of pan down to studs", "− 95"),
        ReceiptLine("worked out", "Above finished floor", "325", is_subtotal=True),
        ReceiptLine("measured", "Floor build-up", "+ 28", link="floor.build_up"),
    ),
    sections=(Section("What it moves", (ReceiptLine("", "Outlet centre", "253"),)),),
    warning="Two figures still TBC.",
    actions=(Action("own", "Type my own", "pencil"), Action("settle", "Settle it", "s_agreed", main=True)),
)


@pytest.fixture
def column(qtbot: QtBot) -> WhereFrom:
    made = WhereFrom()
    made.resize(296, 620)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.show_figure(VIEW)
    return made


def words(column: WhereFrom) -> list[str]:
    return [each.text() for each in column.findChildren(QLabel) if each.text()]


def rows(column: WhereFrom) -> list[LineRow]:
    return column.findChildren(LineRow)


def test_the_figure_its_reason_and_what_it_moves_are_shown_in_order(column: WhereFrom) -> None:
    heading = column.findChild(Heading)
    assert isinstance(heading, Heading)
    assert heading.accessibleName() == "353 mm"
    assert [each.text() for each in rows(column)] == [
        "Top of pan, finished floor",
        "Top of pan down to studs",
        "Above finished floor",
        "Floor build-up",
        "Outlet centre",
    ]
    for said in ("Fixing studs, WC 1", "TBC", "above bare floor", "What it moves", "Two figures still TBC."):
        assert said in words(column)


def test_a_line_is_read_out_with_its_amount_note_source_and_state(column: WhereFrom) -> None:
    assert rows(column)[0].accessibleName() == "Top of pan, finished floor, 420, Client not signed yet, agreed, to be confirmed"
    assert rows(column)[1].accessibleName() == "Top of pan down to studs, minus  95, maker's sheet"


def test_a_link_is_followed_by_press_and_by_enter(column: WhereFrom, qtbot: QtBot) -> None:
    asked = QSignalSpy(column.link_asked)
    click(rows(column)[0])
    rows(column)[3].setFocus()
    QTest.keyClick(rows(column)[3], Qt.Key.Key_Return)
    assert [asked.at(place)[0] for place in range(asked.count())] == ["wc1.top", "floor.build_up"]


def test_a_line_without_a_link_asks_for_nothing(column: WhereFrom, qtbot: QtBot) -> None:
    asked = QSignalSpy(column.link_asked)
    click(rows(column)[1])
    assert asked.count() == 0
    assert rows(column)[1].focusPolicy() == Qt.FocusPolicy.NoFocus


def test_the_keyboard_goes_in_back_and_out(column: WhereFrom, qtbot: QtBot) -> None:
    column.focus_first()
    assert QApplication.focusWidget() is rows(column)[0]
    with qtbot.waitSignal(column.back_asked):
        key(Qt.Key.Key_Backspace)
    with qtbot.waitSignal(column.leave_asked):
        key(Qt.Key.Key_Escape)


def test_down_goes_to_the_next_link(column: WhereFrom) -> None:
    column.focus_first()
    key(Qt.Key.Key_Down)
    assert QApplication.focusWidget() is rows(column)[3]


def test_the_keyboard_stays_in_the_column_when_a_link_opens_another_figure(column: WhereFrom) -> None:
    column.focus_first()
    column.show_figure(WhereFromView("Top of pan", "420", "mm", came_from="Fixing studs, WC 1"))
    focused = QApplication.focusWidget()
    assert focused is column
    assert "from: Fixing studs, WC 1" in words(column)


def test_buttons_say_their_id_and_the_main_one_is_first(column: WhereFrom, qtbot: QtBot) -> None:
    buttons = [each for each in column.findChildren(QPushButton) if each.isVisible()]
    assert [each.text() for each in sorted(buttons, key=lambda each: each.mapTo(column, each.pos()).y())] == ["Settle it", "Type my own"]
    with qtbot.waitSignal(column.button) as pressed:
        click(next(each for each in buttons if each.text() == "Type my own"))
    assert pressed.args == ["own"]


def test_help_takes_the_place_of_a_figure(column: WhereFrom, qtbot: QtBot) -> None:
    column.show_help("Checks", ("Will it run, fit and hold?", "Enter opens a check."))
    qtbot.waitUntil(lambda: not [each for each in column.findChildren(QPushButton) if each.isVisible()])
    assert rows(column) == []
    assert "Enter opens a check." in words(column)


def test_a_long_receipt_scrolls_and_its_buttons_stay(column: WhereFrom, qapp: QApplication) -> None:
    many = tuple(ReceiptLine("measured", f"Line {place}", str(place), "a note below it") for place in range(40))
    column.show_figure(WhereFromView("Sum", "780", "mm", lines=many, actions=(Action("own", "Type my own"),)))
    theme.apply(qapp, Look(percent=150))
    qapp.processEvents()
    own = next(each for each in column.findChildren(QPushButton) if each.isVisible())
    assert column.rect().contains(own.mapTo(column, own.rect().center()))


def test_nothing_is_cut_off_at_the_right_at_any_text_size(column: WhereFrom, qapp: QApplication) -> None:
    for percent in (100, 150):
        theme.apply(qapp, Look(percent=percent))
        column.resize(Look(percent=percent).px(296), 620)
        qapp.processEvents()
        assert all(row.mapTo(column, row.rect().topRight()).x() < column.width() for row in rows(column))


def test_a_button_of_many_words_has_a_row_of_its_own_and_is_read_whole(column: WhereFrom) -> None:
    long = "Put Straight tap connector 15 × ½ on the list: bought, carried and priced with it."
    column.show_figure(replace(VIEW, actions=(Action("way:0:0", long, "pencil"), Action("own", "Type my own", "pencil"))))
    buttons = {each.accessibleName(): each for each in column.findChildren(QPushButton) if each.accessibleName() in {long, "Type my own"}}
    lines = buttons[long].text().split("\n")
    assert " ".join(lines) == long
    assert len(lines) > 1
    assert max(buttons[long].fontMetrics().horizontalAdvance(line) for line in lines) < column.width()
    assert buttons[long].parentWidget() is not buttons["Type my own"].parentWidget()


def test_buttons_that_would_be_cut_off_side_by_side_stand_under_one_another(column: WhereFrom) -> None:
    words = ("Open in the catalogue", "data sheet.pdf", "Del")
    column.show_figure(replace(VIEW, actions=tuple(Action(each, each, "paper") for each in words)))
    made = {each.accessibleName(): each for each in column.findChildren(QPushButton) if each.accessibleName() in words}
    assert made[words[0]].parentWidget() is not made[words[1]].parentWidget()
    assert made[words[1]].parentWidget() is made[words[2]].parentWidget()
    assert all(each.width() >= each.sizeHint().width() for each in made.values())
