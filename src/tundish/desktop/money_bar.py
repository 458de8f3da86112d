"""One bar that shows where the money goes: parts in proportion, each with its name and amount under it."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.painted import write

TONES: Final = ("steel", "soil", "cold", "chalk", "settled", "tbc", "edge")


class MoneyBar(QWidget):
    """Parts of a sum side by side; the names stand in a legend below, so that colour alone says nothing."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._parts: tuple[tuple[str, Decimal], ...] = ()
        self.setAccessibleName("Where the money goes")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_parts(self, parts: tuple[tuple[str, Decimal], ...]) -> None:
        """Show these parts, in order."""
        self._parts = parts
        self.setAccessibleDescription(", ".join(f"{name} {measure.show_money(amount)}" for name, amount in parts))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(400), look.now().px(44))

    def paintEvent(self, _event: QPaintEvent) -> None:
        whole = sum((amount for _, amount in self._parts), Decimal(0))
        if not whole:
            return
        painter = QPainter(self)
        px, left = look.now().px, 0
        legend = self.width() // max(len(self._parts), 1)
        for place, (name, amount) in enumerate(self._parts):
            wide = round(self.width() * float(amount / whole))
            tone = look.colour(TONES[place % len(TONES)])
            painter.fillRect(QRect(left, 0, max(wide - 2, 1), px(16)), tone)
            painter.fillRect(QRect(place * legend, px(25), px(10), px(10)), tone)
            words = f"{name} {measure.show_money(amount)}"
            write(painter, QRect(place * legend + px(15), px(18), legend - px(18), px(24)), words, "note", "ink2")
            left += wide
