"""The keyboard on the wall: where it starts, where it comes back to, and what is said then."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click, key
from tests.desktop.pages.test_setting_out import TOP, opened, press_digits, room, tab_to, value
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


@pytest.mark.parametrize(
    ("kind", "words"), [("niche", "Left edge from left wall"), ("hatch", "Left edge from left wall"), ("noggin", "Left end from left wall")]
)
def test_what_has_no_figure_of_its_own_says_where_its_place_is_from(kind: str, words: str, fitter: Fitter) -> None:
    page = opened(fitter)
    page.tools.add_asked.emit(kind)
    fitter.qtbot.waitUntil(lambda: page.view.piece() == f"{kind}-1", timeout=WAIT_MS)
    shown = [each.text() for each in fitter.window.where_from.findChildren(QLabel) if each.isVisible()]
    assert words in shown
    key(Qt.Key.Key_Up)
    fitter.settled()
    shown = [each.text() for each in fitter.window.where_from.findChildren(QLabel) if each.isVisible()]
    assert any(each.endswith("above finished floor") for each in shown)


def test_a_noggin_is_not_added_on_another(fitter: Fitter) -> None:
    page = opened(fitter)
    page.tools.add_asked.emit("noggin")
    page.tools.add_asked.emit("towel rail")
    fitter.settled()
    first, second = room(fitter).backed
    assert first.right.value <= second.left.value or second.right.value <= first.left.value


def test_heights_of_two_alike_are_told_apart_by_their_names(fitter: Fitter) -> None:
    page = opened(fitter)
    page.tools.add_asked.emit("wc")
    fitter.settled()
    fitter.workspace.set("rooms.0.design.appliances.3.name", "Spare pan")
    fitter.workspace.set("rooms.0.design.appliances.3.top", 460)
    fitter.settled()
    labels = [row.height_shown.label for row in page.rod.rows() if row.height_shown is not None]
    assert {"WC 1 top of pan", "Spare pan top of pan"} <= set(labels)
