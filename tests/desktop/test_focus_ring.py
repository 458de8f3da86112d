"""The ring goes round what has the keyboard, moves with it, and is never cut off."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton, QScrollArea, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from tundish.desktop.focus_ring import REACH, FocusRing


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    made = QWidget()
    made.resize(300, 300)
    box = QLineEdit(made)
    box.setGeometry(50, 50, 100, 30)
    FocusRing(made)
    qtbot.addWidget(made)
    with qtbot.waitActive(made):
        made.show()
        made.activateWindow()
    return made


def ring(window: QWidget) -> FocusRing:
    found = window.findChild(FocusRing)
    assert isinstance(found, FocusRing)
    return found


def reaches(window: QWidget, widget: QWidget) -> bool:
    around = ring(window)
    corner = widget.mapTo(window, QPoint(0, 0)) - QPoint(REACH, REACH)
    return around.isVisible() and around.mapTo(window, QPoint(0, 0)) == corner


def test_it_goes_round_a_box_and_moves_with_it(window: QWidget) -> None:
    box = window.findChild(QLineEdit)
    assert isinstance(box, QLineEdit)
    box.setFocus()
    assert reaches(window, box)
    box.move(80, 90)
    assert reaches(window, box)


def test_it_goes_with_what_scrolls(window: QWidget, qapp: QApplication) -> None:
    area = QScrollArea(window)
    body = QWidget()
    column = QVBoxLayout(body)
    boxes = [QLineEdit() for _ in range(20)]
    for each in boxes:
        column.addWidget(each)
    area.setWidget(body)
    area.setGeometry(20, 100, 200, 150)
    area.show()
    boxes[3].setFocus(Qt.FocusReason.TabFocusReason)
    assert reaches(window, boxes[3])
    area.verticalScrollBar().setValue(40)
    assert reaches(window, boxes[3])
    assert ring(window).parentWidget() is body


def test_a_button_has_it_from_the_keyboard_and_loses_it_with_the_focus(window: QWidget) -> None:
    button = QPushButton("Add", window)
    button.show()
    button.setFocus(Qt.FocusReason.TabFocusReason)
    assert reaches(window, button)
    button.clearFocus()
    assert not ring(window).isVisible()


def test_it_survives_the_end_of_what_it_was_round(window: QWidget, qtbot: QtBot) -> None:
    box = window.findChild(QLineEdit)
    assert isinstance(box, QLineEdit)
    box.setFocus()
    box.deleteLater()
    qtbot.waitUntil(lambda: window.findChild(QLineEdit) is None)
    assert not ring(window).isVisible()
