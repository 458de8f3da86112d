"""Where the keyboard stops: the controls of a part of the window that Tab reaches."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget


def stops(part: QWidget) -> list[QWidget]:
    """The controls in a part that Tab can stop at, shown or not, in the order they were made."""
    window = part.window()
    found = [part, *part.findChildren(QWidget)]
    return [each for each in found if each.focusPolicy() & Qt.FocusPolicy.TabFocus and each.isEnabled() and each.window() is window]


def first_stop(part: QWidget) -> QWidget | None:
    """The first control in a part that can have the keyboard now."""
    window = part.window()
    return next((each for each in stops(part) if each.isVisibleTo(window)), None)
