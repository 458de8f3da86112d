"""What a screen reader would find in a window."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QWidget


def spoken_name(widget: QWidget) -> str:
    """The name a screen reader gives a widget."""
    return QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)


def nameless(window: QWidget) -> list[str]:
    """The controls that Tab stops at and that have no name to be read out."""
    stops = [each for each in window.findChildren(QWidget) if each.focusPolicy() & Qt.FocusPolicy.TabFocus and each.isVisibleTo(window)]
    return [
        f"{type(each).__name__} {each.objectName()}"
        for each in stops
        if each.objectName() != "qt_scrollarea_viewport" and not spoken_name(each)
    ]
