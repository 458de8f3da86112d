"""A row of buttons that goes on in another line where it is too narrow."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QRect, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish.desktop import look


class Flow(QWidget):
    """Widgets side by side, as many to a line as fit."""

    def __init__(self, parts: Sequence[QWidget], *, above: int = 8) -> None:
        """`above` is the room over and under the lines, pixels at 100 %."""
        super().__init__()
        self._above = above
        self._parts: tuple[QWidget, ...] = ()
        self.set_parts(parts)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def set_parts(self, parts: Sequence[QWidget]) -> None:
        """Show these from now on, in this order."""
        self._parts = tuple(parts)
        for part in self._parts:
            if part.parent() is not self:
                part.setParent(self)
                part.show()
        self._place()
        self.updateGeometry()

    def sizeHint(self) -> QSize:
        wide = self.width() if self.isVisible() else look.now().px(400)
        return QSize(look.now().px(200), self.heightForWidth(wide))

    def minimumSizeHint(self) -> QSize:
        return QSize(look.now().px(120), self.sizeHint().height())

    def heightForWidth(self, width: int) -> int:
        rects = self._rects(width)
        return rects[-1].bottom() + 1 + look.now().px(self._above) if rects else 0

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()
        self.updateGeometry()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._place()
            self.updateGeometry()

    def _place(self) -> None:
        for part, rect in zip(self._parts, self._rects(self.width()), strict=True):
            part.setGeometry(rect)

    def _rects(self, width: int) -> list[QRect]:
        px = look.now().px
        edge, gap = px(14), px(6)
        x, y = edge, px(self._above)
        rects: list[QRect] = []
        for part in self._parts:
            size = part.sizeHint()
            if x > edge and x + size.width() > width - edge:
                x, y = edge, y + size.height() + gap
            rects.append(QRect(x, y, min(size.width(), max(width - 2 * edge, 1)), size.height()))
            x += size.width() + gap
        return rects
