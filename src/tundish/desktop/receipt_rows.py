"""The painted lines of Where from: they add up like a till receipt."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish.desktop import icons, look
from tundish.desktop.painted import Painted, fitted, line, width_of, write
from tundish.desktop.receipt import ReceiptLine, WhereFromView

_WRAPPED: Final = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop


class LineRow(Painted):
    """One painted line of a receipt; a link can have the keyboard and is opened by Enter or a press."""

    def __init__(self, shown: ReceiptLine, parent: QWidget | None = None) -> None:
        super().__init__(shown.label, parent)
        self.shown = shown
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if shown.link else Qt.FocusPolicy.NoFocus)
        parts = (shown.label, shown.amount.replace("−", "minus "), shown.note, shown.source, "to be confirmed" if shown.tbc else "")
        self.setAccessibleName(", ".join(part for part in parts if part))
        if shown.source:
            self.setToolTip(shown.source)

    def measure(self) -> QSize:
        """How large it wants to be."""
        return QSize(look.now().px(200), self.heightForWidth(max(self.width(), look.now().px(200))))

    def heightForWidth(self, width: int) -> int:
        px = look.now().px
        label, note = self._rooms(width)
        high = px(3) + self._high(self._role(), self.shown.label, label) + px(3)
        high += (self._high("note", self.shown.note, note) if self.shown.note else 0) + (px(5) if self.shown.is_subtotal else 0)
        return max(high, px(24)) if self.shown.link else high

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.updateGeometry()

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        px, shown = look.now().px, self.shown
        top = px(3)
        if shown.is_subtotal:
            line(painter, QPointF(0, 2.5), QPointF(self.width(), 2.5), "edge")
            top += px(5)
        mark = icons.SOURCES.get(shown.source, "arrr")
        tone = "tbc" if shown.tbc else "ink2"
        side = px(15 if shown.source else 14)
        icons.draw(painter, QRect(0, top + px(2), side, side), mark, tone)
        label, note = self._rooms(self.width())
        label_high = self._high(self._role(), shown.label, label)
        self._write(painter, QRect(self._left(), top, label, label_high), shown.label, self._role(), self._label_tone())
        amount = QRect(0, top, self.width(), look.now().px(18))
        write(painter, amount, shown.amount, "amount", shown.tone or "ink", right=True)
        if shown.note:
            where = QRect(self._left() + px(3 if not shown.source else 0), top + label_high, note, self.height())
            self._write(painter, where, shown.note, "note", "tbc" if shown.tbc else "ink2")

    def _label_tone(self) -> str:
        return "chalk" if self.shown.link and (self.underMouse() or self.hasFocus()) else "ink"

    def _role(self) -> str:
        return "tableStrong" if self.shown.is_subtotal else "table"

    def _left(self) -> int:
        return look.now().px(23 if self.shown.source else 20)

    def _rooms(self, width: int) -> tuple[int, int]:
        """Widths for the label and for the note."""
        amount = width_of(self.shown.amount, "amount")
        taken = amount + look.now().px(8) if amount else 0
        return max(width - self._left() - taken, look.now().px(60)), max(width - self._left(), look.now().px(60))

    def _high(self, role: str, text: str, width: int) -> int:
        metrics = QFontMetrics(look.font(role))
        return metrics.boundingRect(0, 0, width, 10_000, _WRAPPED, text).height()

    def _write(self, painter: QPainter, rect: QRect, text: str, role: str, tone: str) -> None:
        painter.setFont(look.font(role))
        painter.setPen(look.colour(tone))
        painter.drawText(rect, _WRAPPED, text)


class Heading(QWidget):
    """The large figure with its unit, on one line, and its tag at the right; cut rather than wrapped."""

    def __init__(self, view: WhereFromView, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._value, self._unit = view.value, view.unit
        self.setAccessibleName(f"{view.value} {view.unit}".strip())
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(120), look.now().px(36))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        figure, unit = look.font("figure"), look.font("body")
        room = self.width()
        value = fitted(self._value, figure, room)
        base = (self.height() + QFontMetrics(figure).capHeight()) // 2
        painter.setPen(look.colour("ink"))
        painter.setFont(figure)
        painter.drawText(0, base, value)
        left = QFontMetrics(figure).horizontalAdvance(value) + look.now().px(9)
        if left < room:
            painter.setPen(look.colour("ink2"))
            painter.setFont(unit)
            painter.drawText(left, base, fitted(self._unit, unit, room - left))
