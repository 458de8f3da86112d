"""The keyboard on the wall: where it starts, where it comes back to, and what is said then."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click, key
from tests.desktop.pages.test_setting_out import TOP, opened, press_digits, tab_to, value
from tundish.desktop.canvas.painting import dimension_box
from tundish.documents.drawing import Dimension


def test_the_keyboard_starts_in_the_drawing_and_comes_back_to_it(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    fitter.page("Alt+3")
    assert fitter.page("Alt+2") is page
    assert QApplication.focusWidget() is page.view
    before = value(fitter, TOP)
    key(Qt.Key.Key_Up)
    assert value(fitter, TOP) == before + 1


def test_what_is_added_has_the_keyboard(fitter: Fitter) -> None:
    page = opened(fitter)
    page.tools.adds.setFocus()
    page.tools.add_asked.emit("niche")
    fitter.qtbot.waitUntil(lambda: page.view.piece() == "niche-1", timeout=WAIT_MS)
    assert QApplication.focusWidget() is page.view


def test_what_was_stays_what_it_was_after_a_size_is_typed(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    press_digits("430")
    key(Qt.Key.Key_Return)
    fitter.settled()
    rows = {label: (was, now) for label, was, now in page.moves.rows()}
    assert rows["From left wall"] == ("390", "430")
    fitter.undo()
    fitter.qtbot.waitUntil(lambda: page.moves.rows() == [], timeout=WAIT_MS)
    assert page.frame.rows()


def test_where_from_stays_with_the_size_that_was_typed(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    mark = next(each for each in page.view.drawing().marks if isinstance(each, Dimension) and each.figure == "top_of_prewall")
    click(page.view.viewport(), dimension_box(mark, page.view.placed()).center().toPoint())
    press_digits("1250")
    key(Qt.Key.Key_Return)
    fitter.settled()
    assert "Top of pre-wall" in [each.text() for each in fitter.window.where_from.findChildren(QLabel) if each.isVisible()]
    assert page.view.piece() == "wc-1"


def test_from_above_was_and_now_stand_beside_the_room(fitter: Fitter) -> None:
    page = opened(fitter)
    page.tools.whole.setChecked(True)
    tab_to(page, "wc-1")
    wide = page.view.width()
    key(Qt.Key.Key_Right)
    fitter.settled()
    assert ("From left wall", "390", "391") in page.moves.rows()
    assert page.moves.width() >= page.rod.sizeHint().width()
    assert page.view.width() == wide
