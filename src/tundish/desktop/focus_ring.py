"""The ring round whatever has the keyboard: two pixels of chalk with a gap, above everything, never cut off by a neighbour."""

from __future__ import annotations

from typing import Final

import shiboken6
from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractScrollArea, QApplication, QLineEdit, QPlainTextEdit, QWidget

from tundish.desktop.painted import panel, pen

REACH: Final = 4
"""How far the ring stands out from what it surrounds: the gap and its own width, in pixels."""
_MOVES: Final = (QEvent.Type.Move, QEvent.Type.Resize, QEvent.Type.Hide, QEvent.Type.Show)


class FocusRing(QWidget):
    """Follows the keyboard focus inside one window."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._followed: list[QWidget] = []
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.hide()
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self.follow)

    def follow(self, _old: QWidget | None, new: QWidget | None) -> None:
        """Go round a widget: at once for boxes, otherwise only when the keyboard brought the focus there."""
        for each in self._followed:
            if shiboken6.isValid(each):
                each.removeEventFilter(self)
        self._followed = []
        if new is None or not self._wanted(new):
            self.hide()
            return
        ground = self._ground(new)
        if self.parentWidget() is not ground:
            self.setParent(ground)
        near: QWidget | None = new
        while near is not None and near is not ground:
            near.installEventFilter(self)
            self._followed.append(near)
            near = near.parentWidget()
        self._place()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in _MOVES:
            self._place()
        return super().eventFilter(watched, event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        on_slate = bool(self._followed) and self._followed[0].property("ground") == "slate"
        panel(painter, QRectF(self.rect()), edge=pen("slateText" if on_slate else "chalk", 2), radius=6)

    def _wanted(self, widget: QWidget) -> bool:
        if widget.window() is not self._window or (isinstance(widget, QAbstractScrollArea) and not isinstance(widget, QPlainTextEdit)):
            return False
        return isinstance(widget, QLineEdit | QPlainTextEdit) or not QApplication.mouseButtons()

    def _ground(self, widget: QWidget) -> QWidget:
        """What the ring is painted on: the content of the scroll area the widget is in, or the window."""
        each: QWidget = widget
        while (parent := each.parentWidget()) is not None and each is not self._window:
            above = parent.parentWidget()
            if isinstance(above, QAbstractScrollArea) and above.viewport() is parent:
                return each
            each = parent
        return self._window

    def _place(self) -> None:
        ground = self.parentWidget()
        if ground is None or not self._followed or not shiboken6.isValid(self._followed[0]):
            self.hide()
            return
        widget = self._followed[0]
        corner = widget.mapTo(ground, QPoint(0, 0))
        self.setGeometry(QRect(corner, widget.size()).adjusted(-REACH, -REACH, REACH, REACH))
        self.setVisible(widget.isVisible())
        self.raise_()
