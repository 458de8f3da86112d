"""What a screen reader finds on Setting out: every piece with its name, role and value, and the keyboard where Tab put it."""

from __future__ import annotations

import gc

import pytest
from PySide6.QtCore import QEvent, QRectF, Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import key
from tests.desktop.pages.test_setting_out import CENTRE, opened, steps, tab_to, value
from tundish.desktop.canvas import spots
from tundish.desktop.canvas.spots import Said, Spots
from tundish.desktop.canvas.view import DrawingView
from tundish.desktop.pages.setting_out import SettingOutPage

FIXED, MOVES = QAccessible.Role.StaticText, QAccessible.Role.Slider


def heard(view: DrawingView) -> list[QAccessibleInterface]:
    """The pieces of the drawing as a reader finds them, in its order."""
    sheet = QAccessible.queryAccessibleInterface(view.viewport())
    found = [sheet.child(place) for place in range(sheet.childCount())]
    return [each for each in found if each.role() in {FIXED, MOVES} and not each.state().invisible]


def name(of: QAccessibleInterface) -> str:
    return of.text(QAccessible.Text.Name)


def named(page: SettingOutPage, words: str) -> QAccessibleInterface:
    return next(each for each in heard(page.view) if name(each) == words)


def test_every_piece_is_found_in_its_order_with_its_role_and_value(fitter: Fitter) -> None:
    page = opened(fitter)
    found = heard(page.view)
    assert [name(each) for each in found] == [words for _, words in page.view.drawing().pieces]
    assert [name(each) for each in found if each.role() == MOVES] == ["WC 1", "Bidet 1", "Basin 1"]
    assert named(page, "Bidet 1").text(QAccessible.Text.Value) == "1020"
    assert (
        named(page, "Bidet 1").text(QAccessible.Text.Description).startswith("1,020 millimetres from left wall, 420 above finished floor.")
    )
    assert "Fall of branch, WC 1, 12 mm, to be confirmed" in [each.text(QAccessible.Text.Description) for each in found]
    assert all(each.text(QAccessible.Text.Description) for each in found)


@pytest.fixture
def focus(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of the pieces that a reader was told the keyboard is on."""
    told: list[str] = []
    monkeypatch.setattr(spots, "tell_focus", lambda spot: told.append(spot.accessibleName()))
    return told


def test_a_reader_is_told_that_the_keyboard_is_on_the_piece_that_tab_chose(fitter: Fitter, focus: list[str]) -> None:
    page = opened(fitter)
    focus.clear()
    for piece in ("wc-1", "bidet-1"):
        tab_to(page, piece)
    assert focus == ["WC 1", "Bidet 1"]
    fitter.page("Alt+3")
    fitter.page("Alt+2")
    assert focus[2:] == ["Bidet 1"]


def test_the_value_follows_what_is_moved(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "wc-1")
    key(Qt.Key.Key_Right)
    fitter.settled()
    assert named(page, "WC 1").text(QAccessible.Text.Value) == "391"
    fitter.undo()
    fitter.settled()
    assert named(page, "WC 1").text(QAccessible.Text.Value) == "390"


def test_a_reader_moves_a_piece_and_puts_the_keyboard_on_one(fitter: Fitter) -> None:
    page = opened(fitter)
    done = steps(fitter)
    named(page, "WC 1").valueInterface().setCurrentValue(400)
    assert value(fitter, CENTRE) == 400
    assert (steps(fitter), fitter.workspace.undo_label) == (done + 1, "move WC 1 10 mm")
    named(page, "Basin 1").actionInterface().doAction("SetFocus")
    assert page.view.piece() == "basin-1"
    assert QApplication.focusWidget() is page.view


def test_pieces_that_come_and_go_leave_the_keyboard_where_it_is(fitter: Fitter) -> None:
    page = opened(fitter)
    tab_to(page, "bidet-1")
    fitter.workspace.remove("rooms.0.design.appliances", 0, "remove WC 1")
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "WC 1" not in [name(each) for each in heard(page.view)], timeout=WAIT_MS)
    assert QApplication.focusWidget() is page.view
    assert page.view.piece() == "bidet-1"
    key(Qt.Key.Key_Delete)
    fitter.settled()
    assert QApplication.focusWidget() is page.view


def test_pieces_come_go_and_begin_to_move_in_their_order(qtbot: QtBot) -> None:
    view = DrawingView("Wall")
    qtbot.addWidget(view)
    view.show()
    found = Spots(view.viewport())
    for turn in range(40):
        pieces = tuple((f"p{place}", f"Piece {place}") for place in range(turn % 7 + 1))
        found.show_pieces(pieces)
        found.describe({"p1": Said("moves", turn * 10.0), "p3": Said("moves", turn * 10.0)})
        found.place({piece: QRectF(0, 0, 30, 30) for piece, _ in pieces})
        found.tell_chosen(f"p{turn % 5}")
        QApplication.processEvents()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)  # what was let go of is gone
        gc.collect()
        assert [name(each) for each in heard(view)] == [words for _, words in pieces]
        assert [name(each) for each in heard(view) if each.role() == MOVES] == [f"Piece {place}" for place in (1, 3) if place < len(pieces)]
