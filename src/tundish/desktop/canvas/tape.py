"""The tape: two places of a drawing and how far they are apart, along, up and straight."""

from __future__ import annotations

import math
from typing import Final

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter

from tundish import measure
from tundish.desktop import look
from tundish.desktop.canvas import hits, inks
from tundish.desktop.canvas.painting import Placed
from tundish.desktop.painted import panel, pen
from tundish.documents.drawing import Drawing

CATCH: Final = 8.0
"""A corner of something drawn catches the tape within so many pixels."""
CROSS: Final = 9.0
BOTH: Final = 2


class Tape:
    """The places set so far, and the one under the pointer or the keys; millimetres of the drawing."""

    def __init__(self) -> None:
        self.at: QPointF | None = None
        self._set: list[QPointF] = []

    def point(self, drawing: Drawing, placed: Placed, at: QPointF) -> None:
        """Hold the tape to a point of the view, or to the corner that is near it."""
        self.at = hits.corner_near(drawing, placed, at, CATCH)

    def step(self, right: float, up: float, start: QPointF) -> None:
        """Move along by a key; the first step goes from `start`."""
        self.at = (self.at if self.at is not None else start) + QPointF(right, up)

    def mark(self) -> None:
        """Set the place; a third one begins anew."""
        if self.at is not None:
            self._set = [*self._set, self.at] if len(self._set) == 1 else [self.at]

    def words(self) -> str:
        """What is measured, or what to do."""
        if not self._set:
            return "Press the first place, or move with the arrows and set it with Enter"
        one, other = self._set[0], self._set[-1] if len(self._set) == BOTH or self.at is None else self.at
        along, up = abs(other.x() - one.x()), abs(other.y() - one.y())
        shown = (measure.show_length(each) for each in (along, up, math.hypot(along, up)))
        return "Along {}, up {}, straight {}".format(*shown)

    def paint(self, painter: QPainter, placed: Placed, seen: QRectF) -> None:
        """Paint the tape and what it says, within what is seen."""
        loose = [self.at] if self.at is not None and len(self._set) < BOTH else []
        ends = [placed.point(each.x(), each.y()) for each in (*self._set, *loose)]
        painter.setPen(pen("chalk", 2))
        for at in ends:
            painter.drawLine(QLineF(at.x() - CROSS, at.y(), at.x() + CROSS, at.y()))
            painter.drawLine(QLineF(at.x(), at.y() - CROSS, at.x(), at.y() + CROSS))
        if len(ends) > 1:
            painter.setPen(pen("chalk", 1.5, dashed=True))
            painter.drawLine(QLineF(ends[0], ends[1]))
            note(painter, self.words(), (ends[0] + ends[1]) / 2, seen)


def note(painter: QPainter, words: str, at: QPointF, seen: QRectF) -> None:
    """Words in a small box beside a point of the screen, within what is seen of it."""
    box = note_room(words, at, seen)
    panel(painter, box, fill=look.colour("sheet"), edge=pen("chalk"), radius=4)
    painter.setFont(inks.words_font(inks.PAPER_MM, bold=True))
    painter.setPen(look.colour("chalk"))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextDontClip, words)


def note_room(words: str, at: QPointF, seen: QRectF) -> QRectF:
    """Where a box of words beside a point is whole: right of it and below, else left of it, or above."""
    metrics = QFontMetricsF(inks.words_font(inks.PAPER_MM, bold=True))
    wide, high = metrics.horizontalAdvance(words) + 16, metrics.height() + 8
    x = at.x() + 16 if at.x() + 16 + wide <= seen.right() else at.x() - 16 - wide
    return QRectF(max(x, seen.left()), min(max(at.y() + 14, seen.top()), max(seen.bottom() - high, seen.top())), wide, high)
