"""Tables: groups fold and keep their subtotal, the chosen row stays chosen, and the keyboard does everything."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QAccessible, QImage
from PySide6.QtTest import QAbstractItemModelTester, QSignalSpy, QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.desktop.hands import click
from tundish.desktop import look, theme
from tundish.desktop.cells import Cell, Column, Gauge, Group, Row
from tundish.desktop.look import Look
from tundish.desktop.table_model import TableModel
from tundish.desktop.tables import NARROWEST, ROW, TWO_LINES, Table, TableCard

COLUMNS = (Column("", 36), Column("Item"), Column("Need", 90, right=True), Column("Cost", 90, right=True))


def row(row_id: str, name: str, cost: str = "1.00") -> Row:
    return Row(row_id, (Cell(glyph="tick", spoken="passes"), Cell(name, strong=True), Cell("2"), Cell(cost)))


DRAINAGE = Group(
    "drainage",
    "Drainage",
    (row("pipe", "Soil pipe 110"), row("clip", "Pipe clip 110")),
    note="2 lines",
    subtotals=((3, Cell("£28.10", strong=True)),),
)
FRAME = Group("frame", "Pre-wall frame", (row("strut", "Strut 41 × 21"), row("bracket", "Strut corner bracket")))


@pytest.fixture
def table(qtbot: QtBot) -> Iterator[Table]:
    made = Table("Materials", COLUMNS)
    card = TableCard(made)
    qtbot.addWidget(card)
    card.resize(700, 400)
    with qtbot.waitActive(card):
        card.show()
        card.activateWindow()
    made.set_groups((DRAINAGE, FRAME))
    made.setFocus()
    yield made
    card.close()


def lines(table: Table) -> list[str]:
    return [entry.id for entry in table.table_model.entries()]


def press(table: Table, key: Qt.Key) -> None:
    QTest.keyClick(table, key)


def test_the_model_keeps_qts_rules(qapp: QApplication) -> None:
    model = TableModel(COLUMNS)
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    model.set_groups((DRAINAGE, FRAME))
    model.fold("drainage", folded=True)
    assert tester.model() is model
    assert model.rowCount() == 4


def test_a_folded_group_keeps_its_head_and_its_subtotal(table: Table) -> None:
    table.choose("drainage")
    press(table, Qt.Key.Key_Left)
    assert lines(table) == ["drainage", "frame", "strut", "bracket"]
    assert table.table_model.cell(0, 3).text == "£28.10"
    press(table, Qt.Key.Key_Right)
    assert lines(table) == ["drainage", "pipe", "clip", "frame", "strut", "bracket"]


def test_a_press_on_a_head_folds_it(table: Table, qtbot: QtBot) -> None:
    high = table.rowHeight(0)
    click(table.viewport(), QPoint(60, high // 2))
    assert lines(table) == ["drainage", "frame", "strut", "bracket"]


def test_a_group_that_may_not_fold_stays_open(table: Table) -> None:
    table.set_groups((Group("falls", "Falls", (row("branch", "WC branch"),), folds=False),))
    table.choose("falls")
    press(table, Qt.Key.Key_Left)
    press(table, Qt.Key.Key_Space)
    assert lines(table) == ["falls", "branch"]


def test_rows_without_groups_have_no_head(table: Table) -> None:
    table.set_rows((row("a", "A"), row("b", "B")))
    assert lines(table) == ["a", "b"]


def test_what_was_folded_and_chosen_stays_so_when_new_rows_come(table: Table) -> None:
    table.choose("frame")
    press(table, Qt.Key.Key_Left)
    table.choose("clip")
    told = QSignalSpy(table.row_chosen)
    table.set_groups((Group("new", "New", (row("x", "X"),)), DRAINAGE, FRAME))
    assert table.chosen() == "clip"
    assert "strut" not in lines(table)
    assert told.count() == 0


def test_a_row_that_is_gone_is_no_longer_chosen(table: Table) -> None:
    table.choose("clip")
    table.set_groups((FRAME,))
    assert table.chosen() == ""


def test_choosing_a_row_of_a_folded_group_opens_the_group(table: Table) -> None:
    table.choose("frame")
    press(table, Qt.Key.Key_Left)
    table.choose("bracket")
    assert table.chosen() == "bracket"


def test_the_chosen_row_pressed_once_more_is_asked_for(table: Table) -> None:
    chosen, asked = QSignalSpy(table.row_chosen), QSignalSpy(table.row_asked)
    for row_id in ("clip", "clip", "bracket"):
        place = table.visualRect(table.table_model.index(table.table_model.place(row_id), 0)).center()
        QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert [chosen.at(each)[0] for each in range(chosen.count())] == ["clip", "bracket"]
    assert [asked.at(each)[0] for each in range(asked.count())] == ["clip"]


def test_arrows_tell_of_rows_and_pass_over_heads(table: Table) -> None:
    table.choose("pipe")
    told = QSignalSpy(table.row_chosen)
    for _ in range(3):
        press(table, Qt.Key.Key_Down)
    assert [told.at(place)[0] for place in range(told.count())] == ["clip", "strut"]


@pytest.mark.parametrize(
    ("key", "signal"),
    [(Qt.Key.Key_Return, "row_opened"), (Qt.Key.Key_Space, "row_ticked"), (Qt.Key.Key_Delete, "remove_asked")],
)
def test_keys_on_a_row_say_which(table: Table, qtbot: QtBot, key: Qt.Key, signal: str) -> None:
    table.choose("strut")
    with qtbot.waitSignal(getattr(table, signal)) as told:
        press(table, key)
    assert told.args == ["strut"]


def test_two_presses_on_a_row_open_it_and_on_a_head_open_nothing(table: Table) -> None:
    opened = QSignalSpy(table.row_opened)
    for place in (0, 1):
        at = table.visualRect(table.table_model.index(place, 1)).center()
        QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
        QTest.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
        if place == 0 and table.table_model.folded("drainage"):
            press(table, Qt.Key.Key_Right)
    assert [opened.at(one)[0] for one in range(opened.count())] == ["pipe"]


def test_insert_asks_for_a_line(table: Table, qtbot: QtBot) -> None:
    with qtbot.waitSignal(table.add_asked):
        press(table, Qt.Key.Key_Insert)


def test_typing_jumps_to_a_line(table: Table) -> None:
    table.setCurrentIndex(table.table_model.index(1, 1))
    QTest.keyClicks(table, "strut c")
    assert table.chosen() == "bracket"


def test_states_and_amounts_are_read_out(table: Table) -> None:
    model = table.table_model
    assert model.data(model.index(1, 0), Qt.ItemDataRole.AccessibleTextRole) == "passes"
    assert model.data(model.index(0, 0), Qt.ItemDataRole.AccessibleTextRole) == "Drainage, 2 lines, open"
    shown = QAccessible.queryAccessibleInterface(table)
    assert shown.text(QAccessible.Text.Name) == "Materials"
    assert shown.childCount() > len(COLUMNS)


def test_a_column_that_takes_the_rest_stays_wide_enough_to_read(table: Table) -> None:
    card = table.window()
    card.resize(300, 400)
    assert table.columnWidth(1) == NARROWEST
    card.resize(900, 400)
    assert sum(table.columnWidth(place) for place in range(4)) == table.viewport().width()


def test_rows_grow_with_the_text(table: Table, qapp: QApplication) -> None:
    theme.apply(qapp, Look(percent=150))
    assert table.rowHeight(1) == 42
    assert table.columnWidth(2) == 135


def pixel(table: Table, column: int, line: int) -> str:
    image: QImage = table.viewport().grab().toImage()
    return image.pixelColor(table.columnViewportPosition(column) + 1, table.rowViewportPosition(line) + 3).name().upper()


def test_the_chosen_row_has_a_wash_and_a_bar_at_its_left(table: Table) -> None:
    table.choose("pipe")
    assert pixel(table, 0, 1) == look.now().hex("chalk")
    assert pixel(table, 2, 1) == look.now().hex("chalkWash")
    assert pixel(table, 2, 2) == look.now().hex("sheet")


def test_an_empty_table_says_what_will_be_there(table: Table) -> None:
    table.set_groups(())
    blank = table.viewport().grab().toImage()
    table.set_empty("Your own jobs will be listed here.", "Ten measurements are enough for a first price.", "measure")
    assert table.viewport().grab().toImage() != blank


def test_a_gauge_in_a_cell_is_painted(table: Table) -> None:
    table.set_rows((Row("a", (Cell(), Cell("A"), Cell(gauge=Gauge(1.4), spoken="6 to spare"), Cell())),))
    image = table.viewport().grab().toImage()
    middle = table.rowViewportPosition(0) + table.rowHeight(0) // 2
    colours = {image.pixelColor(x, middle).name().upper() for x in range(table.columnViewportPosition(2), table.columnViewportPosition(3))}
    assert look.now().hex("settled") in colours


def long(count: int, *, first: int = 0) -> Group:
    return Group("long", "Long", tuple(row(f"row-{place}", f"Row {place}") for place in range(first, first + count)))


def test_the_chosen_row_stays_where_it_shows_when_rows_come_in_above_it(table: Table) -> None:
    table.set_groups((long(60),))
    table.choose("row-40")
    before = table.visualRect(table.currentIndex()).top()
    table.set_groups((DRAINAGE, long(60)))
    assert table.chosen() == "row-40"
    assert table.visualRect(table.currentIndex()).top() == before
    table.set_groups((long(60),))
    assert table.visualRect(table.currentIndex()).top() == before


def test_a_chosen_row_out_of_sight_is_left_there_until_it_is_asked_back(table: Table) -> None:
    table.set_groups((long(60),))
    table.choose("row-50")
    table.verticalScrollBar().setValue(0)
    table.set_groups((long(61),))
    assert table.verticalScrollBar().value() == 0
    table.bring_back()
    assert table.viewport().rect().contains(table.visualRect(table.currentIndex()))


def test_a_row_where_a_head_was_before_is_as_high_as_the_others(qtbot: QtBot) -> None:
    made = Table("Checks", COLUMNS, row_high=TWO_LINES)
    qtbot.addWidget(made)
    one, other = row("one", "Soil pipe 110"), row("other", "Strut 41 × 21")
    for rows in ((one,), (one, other), (one,)):
        made.set_groups((Group("first", "First", rows), Group("last", "Last", (row("end", "Pipe clip"),))))
        low, high = look.now().row(ROW), look.now().row(TWO_LINES)
        assert [made.rowHeight(place) for place in range(len(rows) + 3)] == [low, *([high] * len(rows)), low, high]


def priced(table: Table, stages: int) -> None:
    """A price of so many stages with a total, and what is kept back of it."""
    total = Row("total", (Cell(), Cell("Client pays"), Cell(), Cell("9.00")), total=True)
    table.pin_total()
    table.set_rows((*(row(f"stage {place}", f"Stage {place}") for place in range(stages)), total, row("kept", "Kept back")))
    table.updateGeometries()  # the bar beside the rows would come with the next turn, and takes of their width
    table.viewport().grab()


def test_the_last_total_is_always_in_sight_and_can_be_pressed(table: Table) -> None:
    priced(table, 30)
    told = QSignalSpy(table.row_chosen)
    over = table.pinned()
    assert over.bottom() == table.viewport().rect().bottom()
    click(table.viewport(), over.center())
    assert told.at(0) == ["total"]
    assert table.indexAt(QPoint(60, over.top() - 2)).row() < 30, "the row above it is itself"
    table.bring_back()
    assert table.pinned().isEmpty(), "it is in its own place"
    priced(table, 2)
    assert table.pinned().isEmpty(), "there is room for all"


def test_a_row_is_brought_out_from_under_the_total(table: Table) -> None:
    priced(table, 30)
    table.choose("stage 0")
    for _ in range(29):
        press(table, Qt.Key.Key_Down)
        shown = table.visualRect(table.currentIndex())
        assert not shown.intersects(table.pinned())
        assert table.viewport().rect().contains(shown)
    assert table.chosen() == "stage 29"


def test_the_total_over_the_foot_is_painted_as_in_its_own_place(table: Table) -> None:
    priced(table, 30)
    over = table.pinned()
    pinned = table.viewport().grab(over.adjusted(0, 1, 0, 0)).toImage()
    table.verticalScrollBar().setValue(table.verticalScrollBar().maximum())
    own = table.visualRect(table.table_model.index(table.table_model.place("total"), 0))
    there = QRect(0, own.top(), table.viewport().width(), own.height())
    assert pinned == table.viewport().grab(there.adjusted(0, 1, 0, 0)).toImage()
