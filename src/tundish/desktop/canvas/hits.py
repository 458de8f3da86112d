"""Which piece or figure is under a point of the screen, and how far a piece reaches. Ids only."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath, QPainterPathStroker

from tundish.desktop.canvas.painting import Placed, dimension_box, outline, ware_of, words_box
from tundish.documents.drawing import Dimension, Drawing, Line, Mark, Words

CATCH: Final = 12.0
"""A line or a handle is caught within so many pixels: 24 across."""


def piece_at(drawing: Drawing, placed: Placed, at: QPointF) -> str:
    """The id of the topmost piece at a point of the screen, "" where there is none."""
    choosable = {piece for piece, _ in drawing.pieces}
    for mark in reversed(drawing.marks):
        if mark.piece in choosable and _holds(mark, placed, at):
            return mark.piece
    return ""


def figure_at(drawing: Drawing, placed: Placed, at: QPointF) -> str:
    """The figure that the words or the dimension at a point show, "" where there is none."""
    for mark in reversed(drawing.marks):
        if isinstance(mark, Words | Dimension) and mark.figure and _room(mark, placed).adjusted(-3, -3, 3, 3).contains(at):
            return mark.figure
    return ""


def reach(drawing: Drawing, placed: Placed, piece: str) -> QRectF:
    """The rectangle round a piece in pixels: its first outline where it is ware, else all its marks but words and dimensions."""
    found = QRectF()
    for shape in ware_of(drawing, piece)[:1]:
        return outline(shape, placed).boundingRect()
    for mark in drawing.marks:
        if mark.piece == piece and not isinstance(mark, Words | Dimension):
            found = found.united(_path(mark, placed).boundingRect())
    return found


def outlines(drawing: Drawing, placed: Placed, piece: str) -> list[QPainterPath]:
    """The lines and outlines of a piece, in pixels."""
    return [_path(mark, placed) for mark in drawing.marks if mark.piece == piece and not isinstance(mark, Words | Dimension)]


def _holds(mark: Mark, placed: Placed, at: QPointF) -> bool:
    if isinstance(mark, Words | Dimension):
        return _room(mark, placed).contains(at)
    path = _path(mark, placed)
    if not path.boundingRect().adjusted(-CATCH, -CATCH, CATCH, CATCH).contains(at):
        return False
    if isinstance(mark, Line):
        stroker = QPainterPathStroker()
        stroker.setWidth(CATCH)
        return stroker.createStroke(path).contains(at)
    return path.contains(at)


def _room(mark: Words | Dimension, placed: Placed) -> QRectF:
    return words_box(mark, placed) if isinstance(mark, Words) else dimension_box(mark, placed)


def _path(mark: Mark, placed: Placed) -> QPainterPath:
    if isinstance(mark, Line):
        path = QPainterPath(placed.point(mark.x1, mark.y1))
        path.lineTo(placed.point(mark.x2, mark.y2))
        return path
    if isinstance(mark, Words | Dimension):
        return QPainterPath()
    return outline(mark, placed)
