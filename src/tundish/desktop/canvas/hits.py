"""Which piece or figure is under a point of the screen, and how far a piece reaches. Ids only."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath, QPainterPathStroker

from tundish.desktop.canvas.painting import AROUND, Placed, dimension_box, handles_of, outline, ware_of, words_box
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Words

CATCH: Final = 12.0
"""A line or a handle is caught within so many pixels: 24 across."""


def piece_at(drawing: Drawing, placed: Placed, at: QPointF) -> str:
    """The id of the topmost piece at a point of the screen, "" where there is none."""
    choosable = {piece for piece, _ in drawing.pieces}
    for mark in reversed(drawing.marks):
        if mark.piece in choosable and _holds(mark, placed, at):
            return mark.piece
    return ""


def dimension_at(drawing: Drawing, placed: Placed, at: QPointF) -> Dimension | None:
    """The dimension whose text is at a point, if that is what is pressed there."""
    for mark in reversed(drawing.marks):
        if isinstance(mark, Words | Dimension) and mark.figure and _room(mark, placed).adjusted(-3, -3, 3, 3).contains(at):
            return mark if isinstance(mark, Dimension) else None
    return None


def figure_at(drawing: Drawing, placed: Placed, at: QPointF) -> str:
    """The figure that the words or the dimension at a point show, "" where there is none."""
    for mark in reversed(drawing.marks):
        if isinstance(mark, Words | Dimension) and mark.figure and _room(mark, placed).adjusted(-3, -3, 3, 3).contains(at):
            return mark.figure
    return ""


def handle_at(drawing: Drawing, placed: Placed, piece: str, where: tuple[QPointF, int]) -> str:
    """The way that the handle of the chosen piece at a point can be dragged, "along" or "up"; a handle catches so many pixels across."""
    at, catch = where
    for view, mark in enumerate(ware_of(drawing, piece) if piece else ()):
        box = outline(mark, placed).boundingRect().adjusted(-AROUND, -AROUND, AROUND, AROUND)
        for axis, middle in handles_of(box, top=view == 0 and not drawing.from_above):
            if max(abs(at.x() - middle.x()), abs(at.y() - middle.y())) <= catch / 2:
                return axis
    return ""


def reach(drawing: Drawing, placed: Placed, piece: str) -> QRectF:
    """The rectangle round a piece in pixels: its first outline where it is ware, else all its marks but words and dimensions."""
    return reaches(drawing, placed).get(piece, QRectF())


def reaches(drawing: Drawing, placed: Placed) -> dict[str, QRectF]:
    """The rectangle round every piece, as above."""
    found: dict[str, QRectF] = {}
    ware: set[str] = set()
    for mark in drawing.marks:
        if not mark.piece or mark.piece in ware or isinstance(mark, Words | Dimension):
            continue
        low, high = _ends(mark)
        box = QRectF(placed.point(low[0], high[1]), placed.point(high[0], low[1]))
        if isinstance(mark, Shape) and mark.style in {"ware", "tbc"}:
            ware.add(mark.piece)
            found[mark.piece] = box
        else:
            found[mark.piece] = found[mark.piece].united(box) if mark.piece in found else box
    return found


def corner_near(drawing: Drawing, placed: Placed, at: QPointF, within: float) -> QPointF:
    """The corner or end of something drawn that is nearest to a point of the screen, in mm; the point itself where none is near."""
    best, place = within, QPointF((at.x() - placed.left) / placed.scale, (placed.base - at.y()) / placed.scale)
    for mark in drawing.marks:
        for x, y in _corners(mark):
            point = placed.point(x, y)
            far = max(abs(point.x() - at.x()), abs(point.y() - at.y()))
            if far < best:
                best, place = far, QPointF(x, y)
    return place


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


def _corners(mark: Mark) -> tuple[tuple[float, float], ...]:
    match mark:
        case Line():
            return (mark.x1, mark.y1), (mark.x2, mark.y2)
        case Box():
            right, top = mark.x + mark.width, mark.y + mark.height
            return (mark.x, mark.y), (right, mark.y), (right, top), (mark.x, top)
        case Shape():
            return mark.points
        case Ellipse():
            return ((mark.x, mark.y),)
        case _:
            return ()


def _ends(mark: Line | Box | Shape | Ellipse) -> tuple[tuple[float, float], tuple[float, float]]:
    """The lower left and the upper right corner of a mark."""
    if isinstance(mark, Ellipse):
        return (mark.x - mark.half_width, mark.y - mark.half_height), (mark.x + mark.half_width, mark.y + mark.half_height)
    points = _corners(mark)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys)), (max(xs), max(ys))
