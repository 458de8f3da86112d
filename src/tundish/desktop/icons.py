"""The program's own line drawings, in any of the theme's colours.

An icon made here is painted when it is shown, in the colours of that moment: a change of scheme needs a repaint and no more.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Final

from PySide6.QtCore import QByteArray, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QIcon, QIconEngine, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from tundish.desktop import look
from tundish.resources import resource

SOURCES: Final = {
    "measured": "s_measured",
    "maker's sheet": "s_maker",
    "agreed": "s_agreed",
    "rule": "s_rule",
    "own rate": "s_rate",
    "typed": "s_typed",
    "worked out": "s_worked",
    "assumed": "s_assumed",
}
"""The mark of each source, by the word it is spoken with."""


def icon(name: str, tone: str = "ink", on: str = "") -> QIcon:
    """The named drawing as an icon in a token's colour; `on` is the colour while it is pressed in, if another."""
    return QIcon(_Drawing(name, tone, on or tone))


def draw(painter: QPainter, rect: QRect, name: str, tone: str) -> None:
    """Paint a drawing into a rectangle in a token's colour."""
    painter.drawPixmap(rect.topLeft(), pixmap(name, tone, rect.width(), painter.device().devicePixelRatio()))


def pixmap(name: str, tone: str, side: int, scale: float = 1.0) -> QPixmap:
    """A drawing as a square picture of `side` pixels for a screen of that scale."""
    wear = look.now()
    return _pixmap(name, wear.hex(tone), wear.hex("sheet"), side, scale)


@lru_cache(maxsize=512)
def _pixmap(name: str, ink: str, ground: str, side: int, scale: float) -> QPixmap:
    made = QPixmap(QSize(round(side * scale), round(side * scale)))
    made.fill(Qt.GlobalColor.transparent)
    made.setDevicePixelRatio(scale)
    painter = QPainter(made)
    text = _text(name).replace("currentColor", ink).replace("#fff", ground)
    QSvgRenderer(QByteArray(text.encode())).render(painter, QRectF(0, 0, side, side))
    painter.end()
    return made


@cache
def _text(name: str) -> str:
    return resource("ui", "icons", f"{name}.svg").read_text(encoding="utf-8")


class _Drawing(QIconEngine):
    """An icon that asks for its colours each time it is painted."""

    def __init__(self, name: str, tone: str, on: str) -> None:
        super().__init__()
        self._name, self._tone, self._on = name, tone, on

    def clone(self) -> QIconEngine:
        return _Drawing(self._name, self._tone, self._on)

    def paint(self, painter: QPainter, rect: QRect, mode: QIcon.Mode, state: QIcon.State) -> None:
        """Paint it."""
        side = min(rect.width(), rect.height())
        corner = rect.topLeft() + QPoint((rect.width() - side) // 2, (rect.height() - side) // 2)
        draw(painter, QRect(corner, QSize(side, side)), self._name, self._colour(mode, state))

    def pixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State) -> QPixmap:
        return self.scaledPixmap(size, mode, state, 1.0)

    def scaledPixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State, scale: float) -> QPixmap:
        """The drawing in its square, at the left where there is more room than that: the rest is the gap before words."""
        square = pixmap(self._name, self._colour(mode, state), min(size.width(), size.height()), scale)
        if size.width() <= size.height():
            return square
        room = QPixmap(size * scale)
        room.fill(Qt.GlobalColor.transparent)
        room.setDevicePixelRatio(scale)
        painter = QPainter(room)
        painter.drawPixmap(0, 0, square)
        painter.end()
        return room

    def _colour(self, mode: QIcon.Mode, state: QIcon.State) -> str:
        if mode == QIcon.Mode.Disabled:
            return "edge"
        return self._on if state == QIcon.State.On else self._tone
