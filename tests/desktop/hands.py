"""What a user's hands do: press the mouse on something, press a key where the keyboard is."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget


def focused() -> QWidget:
    """What has the keyboard."""
    found = QApplication.focusWidget()
    assert found is not None
    return found


def click(widget: QWidget, at: QPoint | None = None) -> None:
    """Press and let go the left button on a widget, in its middle or at a point of it."""
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at if at is not None else widget.rect().center())


def key(pressed: Qt.Key, *held: Qt.KeyboardModifier) -> None:
    """Press a key, with others held, where the keyboard is."""
    modifiers = Qt.KeyboardModifier.NoModifier
    for each in held:
        modifiers |= each
    QTest.keyClick(focused(), pressed, modifiers)
