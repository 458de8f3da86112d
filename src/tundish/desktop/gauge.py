"""The gauge of a check: a bar past the dark tick passes; a range shows its band and a needle."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from tundish.desktop import look
from tundish.desktop.cells import Gauge
from tundish.desktop.painted import panel, pen

TICK: Final = 0.45
"""Where along the bar the need stands."""
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


def _tick(painter: QPainter, bar: QRectF, place: float, width: int) -> None:
    reach = look.now().px(5)
    x = bar.x() + bar.width() * place - width / 2
    painter.fillRect(QRectF(x, bar.y() - reach + 1, width, bar.height() + 2 * reach - 2), look.colour("ink"))
