"""Controls that paint themselves: they follow the look without a rule in the style sheet, and cost little to make."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from tundish.desktop import icons, look

ENTER: Final = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
ARROWS: Final = (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down)


class Painted(QAbstractButton):
    """A button that paints itself in the present look; `measure` says how large it is and `show_on` paints it."""

    def __init__(self, text: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setText(text)
        self.setAccessibleName(text)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return self.measure()

    def minimumSizeHint(self) -> QSize:
        return self.measure()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.show_on(painter)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self.updateGeometry()
            self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self.click()
        elif event.key() in ARROWS:
            event.ignore()  # a plain button would go to its neighbour; what the button stands in knows better
        else:
            super().keyPressEvent(event)

    def measure(self) -> QSize:
        """The size it wants, in pixels."""
        return QSize(look.now().control, look.now().control)

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""


class IconButton(Painted):
    """A button that is only a glyph; its words are its tool tip and its spoken name."""

    def __init__(self, glyph: str, words: str, tone: str = "ink", *, small: bool = False, parent: QWidget | None = None) -> None:
        super().__init__("", parent)
        self._glyph, self._tone, self._small = glyph, tone, small
        self.set_words(words)

    def measure(self) -> QSize:
        """How large it wants to be."""
        on_slate = self._tone.startswith("slate")
        side = look.now().px(24) if self._small else look.now().px(34) if on_slate else look.now().control
        return QSize(side, side)

    def set_words(self, words: str) -> None:
        """What the button does, said in its tool tip and to a screen reader."""
        self.setToolTip(words)
        self.setAccessibleName(words)

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        on_slate = self._tone.startswith("slate")
        if self.underMouse() and self.isEnabled():
            hover = look.colour("slateText" if on_slate else "tray")
            hover = QColor(hover.red(), hover.green(), hover.blue(), 40) if on_slate else hover
            panel(painter, QRectF(self.rect()), fill=hover)
        if not self.isEnabled():
            painter.setOpacity(0.45)
        side = look.now().px(15 if self._small else 20)
        icons.draw(painter, centred(self.rect(), side), self._glyph, self._tone)


class Glyph(QWidget):
    """A glyph that stands beside words; what it means is its tool tip and its spoken name."""

    def __init__(self, glyph: str, tone: str, side: int, words: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._side = side
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.set_glyph(glyph, tone, words)

    def set_glyph(self, glyph: str, tone: str, words: str = "") -> None:
        """Show another glyph, or none where it is ""."""
        self._glyph, self._tone = glyph, tone
        self.setToolTip(words)
        self.setAccessibleName(words)
        self.update()

    def sizeHint(self) -> QSize:
        side = look.now().px(self._side)
        return QSize(side, side)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._glyph:
            side = look.now().px(self._side)
            icons.draw(QPainter(self), centred(self.rect(), side), self._glyph, self._tone)


def panel(painter: QPainter, rect: QRectF, *, fill: QColor | None = None, edge: QPen | None = None, radius: float = 4) -> None:
    """A rounded rectangle, its edge drawn inside the rectangle so that it stays sharp."""
    inset = edge.widthF() / 2 if edge is not None else 0
    painter.setPen(edge if edge is not None else Qt.PenStyle.NoPen)
    painter.setBrush(fill if fill is not None else Qt.BrushStyle.NoBrush)
    painter.drawRoundedRect(rect.adjusted(inset, inset, -inset, -inset), radius, radius)


def pen(tone: str, width: float = 1, *, dashed: bool = False) -> QPen:
    """A pen in a token's colour; a dashed one means "to be confirmed"."""
    made = QPen(look.colour(tone), width)
    if dashed:
        made.setDashPattern([3, 2])
    return made


def write(painter: QPainter, rect: QRect, text: str, role: str, tone: str = "ink", *, right: bool = False) -> None:
    """One line of text in a text role and a token's colour, in the middle of a rectangle's height, cut with … when too long."""
    face = look.font(role)
    painter.setFont(face)
    painter.setPen(look.colour(tone))
    side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
    painter.drawText(rect, side | Qt.AlignmentFlag.AlignVCenter, fitted(text, face, rect.width()))


def fitted(text: str, face: QFont, width: int) -> str:
    """The text, cut with … where it is wider than the room for it."""
    metrics = QFontMetrics(face)
    return text if metrics.horizontalAdvance(text) <= width else metrics.elidedText(text, Qt.TextElideMode.ElideRight, width)


def width_of(text: str, role: str) -> int:
    """Width of a text in a text role, in pixels."""
    return QFontMetrics(look.font(role)).horizontalAdvance(text)


def centred(rect: QRect, side: int) -> QRect:
    """The square of a side in the middle of a rectangle."""
    return QRect(rect.x() + (rect.width() - side) // 2, rect.y() + (rect.height() - side) // 2, side, side)


def line(painter: QPainter, start: QPointF, end: QPointF, tone: str, width: float = 1) -> None:
    """A straight line in a token's colour."""
    painter.setPen(pen(tone, width))
    painter.drawLine(start, end)
