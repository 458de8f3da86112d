"""The window: its regions, its pages, its keys; and that everything can be reached and is named."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from tests.desktop.hands import click, focused
from tests.desktop.spoken_names import nameless, spoken_name
from tundish.desktop import keys, look, theme
from tundish.desktop.boxes import Box
from tundish.desktop.look import Look
from tundish.desktop.main_window import MainWindow
from tundish.desktop.page import Page
from tundish.desktop.receipt import Action, ReceiptLine, WhereFromView
from tundish.desktop.run import CLOSING, JOBS, PAGES
from tundish.desktop.words import button

FIGURE = WhereFromView(
    "Fixing studs, WC 1",
    "353",
    "mm",
    lines=(ReceiptLine("agreed", "Top of pan", "420", link="pan"), ReceiptLine("maker's sheet", "Down to studs", "− 67")),
    actions=(Action("own", "Type my own", "pencil"),),
)


class TwoBoxes(Page):
    """A page with two boxes and a tool."""

    help_sentences = ("Two boxes to fill.",)

    def __init__(self, title: str) -> None:
        super().__init__(title, "What is it?")
        body = QWidget()
        column = QVBoxLayout(body)
        self.boxes = [Box("Box 1"), Box("Box 2")]
        for box in self.boxes:
            column.addWidget(box)
        self.add_tool(button("Print", "print"))
        self.set_body(body)


@pytest.fixture
def window(qtbot: QtBot) -> MainWindow:
    made = MainWindow()
    qtbot.addWidget(made)
    made.job_line.set_job("Mrs J. Ostlethwaite", "14 Quillet Lane · Job 047")
    made.run.set_job_open(open_job=True)
    made.run.set_closing("7 of 10 still open", ("open",) * 10, "Boarding Thu 3 Dec")
    for key, title in [(joint.key, joint.title) for joint in PAGES] + [(CLOSING, "Before closing"), (JOBS, "Jobs")]:
        made.add_page(key, title, maker(title))
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    made.show_page("survey")
    return made


def maker(title: str) -> Callable[[], QWidget]:
    return lambda: TwoBoxes(title)


def press(window: QWidget, key: Qt.Key, *modifiers: Qt.KeyboardModifier) -> None:
    held = Qt.KeyboardModifier.NoModifier
    for each in modifiers:
        held |= each
    QTest.keyClick(QApplication.focusWidget() or window, key, held)


def test_pages_are_made_when_they_are_first_shown_and_kept(window: MainWindow) -> None:
    assert window.page("checks") is None
    window.show_page("checks")
    first = window.page("checks")
    window.show_page("survey")
    window.show_page("checks")
    assert window.page("checks") is first is window.frame.pages.currentWidget()


def test_a_page_that_is_not_there_changes_nothing(window: MainWindow) -> None:
    window.show_page("nothing")
    assert window.current == "survey"


@pytest.mark.parametrize("key", [key for key in keys.KEYS if key.act.startswith(keys.PAGE)], ids=lambda key: key.keys)
def test_alt_and_a_figure_opens_the_page(window: MainWindow, key: keys.Key) -> None:
    press(window, getattr(Qt.Key, f"Key_{key.keys[-1]}"), Qt.KeyboardModifier.AltModifier)
    assert window.current == key.act.removeprefix(keys.PAGE)


def test_pressing_a_joint_shows_its_page_and_puts_the_keyboard_in_its_first_box(window: MainWindow, qtbot: QtBot) -> None:
    joint = window.run.entry("materials")
    click(joint)
    page = window.page("materials")
    assert isinstance(page, TwoBoxes)
    assert window.current == "materials"
    assert joint.isChecked()
    assert focused() is page.boxes[0]


def test_tab_goes_through_the_boxes_then_the_tools_then_on(window: MainWindow) -> None:
    names = []
    for _ in range(4):
        names.append(spoken_name(focused()))
        press(window, Qt.Key.Key_Tab)
    assert names[:3] == ["Box 1", "Box 2", "Print"]
    assert not window.frame.pages.isAncestorOf(focused())


def test_f6_goes_round_the_regions_and_comes_back_to_the_box(window: MainWindow) -> None:
    window.where_from.show_figure(FIGURE)
    window.tally.set_price("Price inc. VAT", "£3,104.41")
    press(window, Qt.Key.Key_Tab)
    left = focused()
    regions = [window.where_from, window.tally, window.job_line, window.run]
    for region in regions:
        press(window, Qt.Key.Key_F6)
        assert region.isAncestorOf(focused())
    press(window, Qt.Key.Key_F6)
    assert focused() is left


def test_shift_f6_goes_round_the_other_way(window: MainWindow) -> None:
    press(window, Qt.Key.Key_F6, Qt.KeyboardModifier.ShiftModifier)
    assert focused() is window.run.entry("survey")


def test_f9_goes_to_where_from_and_escape_comes_back_to_the_figure(window: MainWindow) -> None:
    window.where_from.show_figure(FIGURE)
    press(window, Qt.Key.Key_Tab)
    left = focused()
    press(window, Qt.Key.Key_F9)
    assert window.where_from.isAncestorOf(focused())
    press(window, Qt.Key.Key_Escape)
    assert focused() is left


def test_in_a_narrow_window_where_from_is_a_strip_and_opens_over_the_page(window: MainWindow, qtbot: QtBot) -> None:
    window.where_from.show_figure(FIGURE)
    window.resize(1180, 640)
    qtbot.waitUntil(lambda: window.frame.folded)
    page = window.frame.pages.geometry()
    assert not window.where_from.isVisible()
    assert window.frame.strip.width() == 40
    press(window, Qt.Key.Key_F9)
    assert window.where_from.isVisible()
    assert window.frame.pages.geometry() == page
    press(window, Qt.Key.Key_Escape)
    assert not window.where_from.isVisible()


def test_where_from_can_be_put_away_and_brought_back(window: MainWindow, qtbot: QtBot) -> None:
    wide = window.frame.pages.width()
    window.where_from.fold_asked.emit()
    assert window.frame.pages.width() > wide
    click(window.frame.strip)
    assert window.frame.pages.width() == wide
    assert window.where_from.isVisible()


@pytest.mark.parametrize(
    ("key", "signal"),
    [(Qt.Key.Key_Z, "undo_asked"), (Qt.Key.Key_Y, "redo_asked"), (Qt.Key.Key_F, "find_asked"), (Qt.Key.Key_P, "print_asked")],
)
def test_control_keys_ask_the_job_line(window: MainWindow, qtbot: QtBot, key: Qt.Key, signal: str) -> None:
    with qtbot.waitSignal(getattr(window.job_line, signal)):
        press(window, key, Qt.KeyboardModifier.ControlModifier)


def test_control_h_asks_for_the_other_floor(window: MainWindow, qtbot: QtBot) -> None:
    asked = QSignalSpy(window.job_line.floor_asked)
    press(window, Qt.Key.Key_H, Qt.KeyboardModifier.ControlModifier)
    window.job_line.set_floor("finish", 28)
    press(window, Qt.Key.Key_H, Qt.KeyboardModifier.ControlModifier)
    assert [asked.at(place)[0] for place in range(asked.count())] == ["finish", "bare"]


def test_control_plus_and_minus_change_the_text_size_everywhere(window: MainWindow) -> None:
    changed = QSignalSpy(window.look_changed)
    high = window.job_line.height()
    press(window, Qt.Key.Key_Plus, Qt.KeyboardModifier.ControlModifier)
    assert look.now().percent == 115
    assert window.job_line.height() > high
    press(window, Qt.Key.Key_Minus, Qt.KeyboardModifier.ControlModifier)
    press(window, Qt.Key.Key_Minus, Qt.KeyboardModifier.ControlModifier)
    assert look.now().percent == 100
    assert changed.count() == 2


def test_f1_tells_of_the_box_and_twice_lists_the_keys(window: MainWindow) -> None:
    focused().setWhatsThis("Taped between the plastered walls.")
    press(window, Qt.Key.Key_F1)
    assert "Taped between the plastered walls." in words_of(window.where_from)
    press(window, Qt.Key.Key_F1)
    assert any(sentence.startswith("F9:") for sentence in words_of(window.where_from))


def test_every_control_has_a_name_to_be_read_out(window: MainWindow) -> None:
    window.where_from.show_figure(FIGURE)
    window.tally.set_amounts([("Strut", "9.06 m"), ("Boards", "4")])
    window.tally.set_price("Price inc. VAT", "£3,104.41")
    window.tally.set_working("Cut list, 3 of 5 materials", 0.6)
    window.job_line.set_saved("Not saved since 19:41: disk full", bad=True)
    assert nameless(window) == []


def test_every_target_is_at_least_24_pixels_each_way(window: MainWindow) -> None:
    window.where_from.show_figure(FIGURE)
    window.tally.set_working("Cut list, 3 of 5 materials", 0.6)
    stops = [each for each in window.findChildren(QWidget) if each.focusPolicy() & Qt.FocusPolicy.TabFocus and each.isVisible()]
    assert stops
    assert [f"{spoken_name(each)} {each.width()} × {each.height()}" for each in stops if min(each.width(), each.height()) < 24] == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("percent", [100, 150])
def test_the_regions_fill_the_window_and_do_not_overlap(window: MainWindow, qapp: QApplication, scheme: str, percent: int) -> None:
    theme.apply(qapp, Look(scheme, percent))
    frame = window.frame
    beside = frame.strip if frame.folded else frame.where_from
    parts = [frame.job_line, frame.run, frame.pages, beside, frame.tally]
    area = sum(each.width() * each.height() for each in parts)
    assert area == frame.width() * frame.height()
    assert not any(one.geometry().intersects(other.geometry()) for one in parts for other in parts if one is not other)


def test_nothing_of_the_window_is_left_when_it_is_closed(qtbot: QtBot, qapp: QApplication) -> None:
    made = MainWindow()
    made.show()
    made.close()
    gone = QSignalSpy(made.destroyed)
    made.deleteLater()
    qtbot.waitUntil(lambda: gone.count() == 1)
    other = QLineEdit()
    qtbot.addWidget(other)
    other.show()
    other.setFocus()
    qapp.processEvents()


def words_of(widget: QWidget) -> list[str]:
    return [each.text() for each in widget.findChildren(QLabel)]
