"""Where the keyboard stops: the controls of a part of the window that Tab reaches."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLayout, QWidget


def stops(part: QWidget) -> list[QWidget]:
    """The controls in a part that Tab can stop at, shown and enabled or not, in the order they are laid out, whenever they were made."""
    window = part.window()
    return [each for each in _within(part) if each.focusPolicy() & Qt.FocusPolicy.TabFocus and each.window() is window]


def first_stop(part: QWidget) -> QWidget | None:
    """The first control in a part that can have the keyboard now."""
    window = part.window()
    return next((each for each in stops(part) if each.isEnabled() and each.isVisibleTo(window)), None)


@contextmanager
def keyboard_kept(part: QWidget) -> Iterator[None]:
    """While a part is filled anew: where the keyboard was in it, it is in its first control afterwards."""
    focused = QApplication.focusWidget()
    held = focused is not None and part.isAncestorOf(focused)
    yield
    if not held:
        return
    layout = part.layout()
    for each in _placed(layout) if layout is not None else ():
        each.show()  # what is new would be shown by the next turn of the event loop, and only what is shown can have the keyboard
    if (stop := first_stop(part)) is not None:
        stop.setFocus(Qt.FocusReason.TabFocusReason)


def _within(part: QWidget) -> Iterator[QWidget]:
    """A part and all in it: what its layout places in that order, then what it places by itself in the order of making."""
    yield part
    layout = part.layout()
    placed = list(_placed(layout)) if layout is not None else []
    others = [each for each in part.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly) if each not in placed]
    for child in (*placed, *others):
        yield from _within(child)


def _placed(layout: QLayout) -> Iterator[QWidget]:
    """The widgets of a layout and of the layouts in it."""
    for place in range(layout.count()):
        item = layout.itemAt(place)
        if item is None:
            continue
        widget, inner = item.widget(), item.layout()
        if widget is not None:
            yield widget
        elif inner is not None:
            yield from _placed(inner)
