"""The base of every page: one part stretches, and the keyboard goes through boxes before tools."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from tests.desktop.hands import key
from tundish.desktop.boxes import Box
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.page import Page
from tundish.desktop.words import button


def made(qtbot: QtBot) -> tuple[Page, list[QWidget]]:
    page = Page("Materials", "What do I need, and why?")
    tool = button("Print", "print")
    page.add_tool(tool)
    chips = ChipRow("Filter")
    chips.set_choices((Choice("all", "Everything"), Choice("buy", "To buy")), "all")
    page.add_row(chips)
    body = QWidget()
    column = QVBoxLayout(body)
    boxes = [Box("One"), Box("Two")]
    for box in boxes:
        column.addWidget(box)
    page.set_body(body)
    qtbot.addWidget(page)
    page.resize(900, 620)
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()
    return page, [*boxes, tool]


def test_the_body_takes_all_the_height_that_is_left(qtbot: QtBot) -> None:
    page, (box, *_) = made(qtbot)
    body = box.parentWidget()
    assert body is not None
    before = body.height()
    page.resize(900, 720)
    assert body.height() == before + 100


def test_the_keyboard_starts_in_the_first_box_of_the_body(qtbot: QtBot) -> None:
    page, (box, *_) = made(qtbot)
    assert page.first_box() is box


def test_tab_goes_through_the_boxes_before_the_tools(qtbot: QtBot) -> None:
    _page, stops = made(qtbot)
    stops[0].setFocus(Qt.FocusReason.TabFocusReason)
    for after in stops[1:]:
        key(Qt.Key.Key_Tab)
        assert QApplication.focusWidget() is after


def test_the_question_is_cut_and_the_tools_are_kept_where_it_is_narrow(qtbot: QtBot) -> None:
    page, stops = made(qtbot)
    page.resize(320, 620)
    tool = stops[-1]
    assert page.rect().contains(tool.mapTo(page, tool.rect().bottomRight()))


def test_tools_are_their_glyphs_where_their_words_have_no_room_and_are_read_out_by_their_words(qtbot: QtBot) -> None:
    page = Page("Setting out", "What goes where, and how high?")
    tools = [button("Add", "add", main=True), button("Measure", "measure"), button("Whole room", "fit")]
    for tool in tools:
        page.add_tool(tool)
    page.set_body(QWidget())
    window = QWidget()  # which gives a page no more than it has, as the program's own does
    page.setParent(window)
    qtbot.addWidget(window)
    page.resize(900, 300)
    with qtbot.waitExposed(window):
        window.show()
    whole = [tool.sizeHint().width() for tool in tools]
    page.resize(sum(whole) + 120, 300)
    assert tools[0].sizeHint().width() == whole[0]
    assert tools[2].sizeHint().width() < whole[2]
    assert tools[2].toolTip() == tools[2].accessibleName() == "Whole room"
    page.resize(900, 300)
    assert [tool.sizeHint().width() for tool in tools] == whole
    assert not tools[2].toolTip()
