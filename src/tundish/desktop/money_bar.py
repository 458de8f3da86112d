"""One bar that shows where the money goes: parts in proportion, each with its name and amount under it."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.painted import width_of, write

TONES: Final = {
    "Materials": "steel",
    "Delivery and costs": "soil",
    "Paid to others": "cold",
    "Overhead": "edge",
    "Mark-up": "settled",
    "Contingency": "tbc",
    "Labour": "chalk",
    "Your labour": "chalk",
    "VAT": "hot",
}
"""Each part keeps its colour, whichever others there are: a price that changes is compared by eye."""
LESS: Final = " less discount"
_BAR, _LINE, _MARK, _GAP = 16, 20, 15, 14
"""Height of the bar and of a line of names, room for a name's square, and between two names: pixels at 100 %."""


class MoneyBar(QWidget):
    """Parts of a sum side by side; the names stand below, whole, in as many lines as they take, so that colour alone says nothing."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._parts: tuple[tuple[str, Decimal], ...] = ()
        self.setAccessibleName("Where the money goes")
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_parts(self, parts: tuple[tuple[str, Decimal], ...]) -> None:
        """Show these parts, in order."""
        self._parts = parts
        self.setAccessibleDescription(", ".join(f"{name} {measure.show_money(amount)}" for name, amount in parts))
        self.updateGeometry()
        self.update()

    def names(self, wide: int) -> Iterator[tuple[QRect, str]]:
        """Where each name with its amount stands in so much width, whole unless it is wider than all of it."""
        px = look.now().px
        left, top = 0, px(_BAR + 2)
        for name, amount in self._parts:
            words = f"{name} {measure.show_money(amount)}"
            room = min(px(_MARK) + width_of(words, "note") + 2, wide)
            if left and left + room > wide:
                left, top = 0, top + px(_LINE)
            yield QRect(left, top, room, px(_LINE)), words
            left += room + px(_GAP)

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(400), self.heightForWidth(self.width() if self.isVisible() else look.now().px(400)))

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, wide: int) -> int:
        return max((rect.bottom() for rect, _ in self.names(wide)), default=look.now().px(_BAR + _LINE)) + look.now().px(4)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.updateGeometry()

    def paintEvent(self, _event: QPaintEvent) -> None:
        whole = sum((amount for _, amount in self._parts), Decimal(0))
        if not whole:
            return
        painter = QPainter(self)
        px, left = look.now().px, 0
        for (name, amount), (rect, words) in zip(self._parts, self.names(self.width()), strict=True):
            wide = round(self.width() * float(amount / whole))
            tone = look.colour(TONES[name.removesuffix(LESS)])
            painter.fillRect(QRect(left, 0, max(wide - 2, 1), px(_BAR)), tone)
            painter.fillRect(QRect(rect.left(), rect.top() + px(5), px(10), px(10)), tone)
            write(painter, rect.adjusted(px(_MARK), 0, 0, 0), words, "note", "ink2")
            left += wide
