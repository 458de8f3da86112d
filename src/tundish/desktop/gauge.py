"""The gauge of a check: a bar past the dark tick passes; a range shows its band and a needle."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish.desktop import look
from tundish.desktop.cells import Gauge
from tundish.desktop.painted import panel, pen

TICK: Final = 0.45
"""Where along the bar the need stands."""
WIDE: Final = 122
_WASHES: Final = {"settled": "settledWash", "tbc": "tbcWash", "fails": "failsWash"}


def filled(gauge: Gauge) -> float:
    """The part of the bar that is filled, 0 to 1: the need is met where it reaches the tick."""
    return 0.0 if gauge.met is None else max(0.0, min(gauge.met * TICK, 1.0))


def paint_gauge(painter: QPainter, room: QRectF, gauge: Gauge) -> None:
    """Paint a gauge across the room, in the middle of its height."""
    px = look.now().px
    high = px(7)
    bar = QRectF(room.x(), round(room.center().y() - high / 2), room.width(), high)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    panel(painter, bar, fill=look.colour("tray"), edge=pen("edge"), radius=high / 2)
    if gauge.needle is not None:
        left, right = (round(bar.x() + bar.width() * end) for end in (gauge.low, gauge.high))
        band = QRectF(left, round(bar.y()), right - left, high)
        panel(painter, band, fill=look.colour(_WASHES.get(gauge.tone, "sheet")), edge=pen(gauge.tone), radius=1)
        _tick(painter, bar, max(0.0, min(gauge.needle, 1.0)), px(4))
    else:
        part = QRectF(bar.x(), bar.y(), bar.width() * filled(gauge), high)
        panel(painter, part, fill=look.colour(gauge.tone), edge=pen(gauge.tone), radius=high / 2)
        _tick(painter, bar, TICK, px(2))
    painter.restore()


class GaugeBar(QWidget):
    """A gauge that stands by itself; its spoken name says how much there is to spare."""

    def __init__(self, gauge: Gauge, words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._gauge = gauge
        self.setAccessibleName(words)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_gauge(self, gauge: Gauge, words: str) -> None:
        """Show another gauge."""
        self._gauge = gauge
        self.setAccessibleName(words)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(WIDE), look.now().px(20))

    def paintEvent(self, _event: QPaintEvent) -> None:
        paint_gauge(QPainter(self), QRectF(self.rect()), self._gauge)


def _tick(painter: QPainter, bar: QRectF, place: float, width: int) -> None:
    reach = look.now().px(5)
    x = bar.x() + bar.width() * place - width / 2
    painter.fillRect(QRectF(x, bar.y() - reach + 1, width, bar.height() + 2 * reach - 2), look.colour("ink"))
