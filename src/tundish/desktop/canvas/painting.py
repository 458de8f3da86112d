"""Paints a drawing's marks: one function a kind of mark, in the window's pixels, from millimetres with y upwards."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QLineF, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPainterPath, QPolygonF

from tundish.desktop import look
from tundish.desktop.canvas import inks
from tundish.desktop.painted import panel
from tundish.desktop.painted import pen as plain_pen
from tundish.documents.clear_words import Rect
from tundish.documents.drawing import KEPT, Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Words

TICK: Final = 5
HANDLE: Final = 10
PLATE: Final = 0.8
"""How much the plate behind loose words hides of what they stand on."""
AROUND: Final = 5
"""Pixels between a chosen piece and the dashed box round it."""
_ANCHORS: Final = {"start": 0.0, "middle": 0.5, "end": 1.0}


@dataclass(frozen=True, slots=True)
class Placed:
    """Where millimetres fall on the screen: pixels a millimetre, and where the drawing's origin is."""

    scale: float
    left: float
    base: float

    def point(self, x: float, y: float) -> QPointF:
        """A point of the drawing in pixels."""
        return QPointF(self.left + x * self.scale, self.base - y * self.scale)

    def box(self, x: float, y: float, width: float, height: float) -> QRectF:
        """A rectangle by its lower left corner and size, in pixels."""
        return QRectF(self.point(x, y + height), QSizeF(width * self.scale, height * self.scale))


def fitted(extent: tuple[float, float, float, float], room: QRectF, margin: float = 12) -> Placed:
    """The largest scale at which an extent (x, y, width, height) can be seen whole, in the middle of the room."""
    x, y, width, height = extent
    inner = room.adjusted(margin, margin, -margin, -margin)
    scale = max(min(inner.width() / max(width, 1.0), inner.height() / max(height, 1.0)), 1e-6)
    middle = inner.center()
    return Placed(scale, middle.x() - (x + width / 2) * scale, middle.y() + (y + height / 2) * scale)


def paint_drawing(painter: QPainter, drawing: Drawing, placed: Placed, chosen: str = "") -> None:
    """Paint every mark in its order; words of the chosen piece are written in chalk."""
    for mark in drawing.marks:
        paint_mark(painter, mark, placed, chosen=bool(chosen) and mark.piece == chosen)


def paint_chosen(painter: QPainter, drawing: Drawing, placed: Placed, piece: str) -> None:
    """Paint what shows a piece as chosen: its outlines in chalk; of ware, in each view, a dashed box, handles and its centre line."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(plain_pen("chalk", 2))
    ware = ware_of(drawing, piece)
    if not ware:
        for mark in drawing.marks:
            if mark.piece == piece and isinstance(mark, Line):
                painter.drawLine(QLineF(placed.point(mark.x1, mark.y1), placed.point(mark.x2, mark.y2)))
            elif mark.piece == piece and isinstance(mark, Box | Shape | Ellipse):
                painter.drawPath(outline(mark, placed))
        return
    paths = [outline(mark, placed) for mark in ware]
    for path in paths:
        painter.drawPath(path)
    _centre_line(painter, drawing, placed, paths)
    for place, path in enumerate(paths):
        _handles(painter, path.boundingRect(), top=place == 0 and not drawing.from_above)


def ware_of(drawing: Drawing, piece: str) -> list[Shape]:
    """The outlines of a piece that is ware, one a view, the elevation's first; nothing for what cannot be moved."""
    outlines = (mark for mark in drawing.marks if isinstance(mark, Shape) and mark.piece == piece and mark.filled)
    return [mark for mark in outlines if mark.style in {"ware", "tbc"}]


def paint_mark(painter: QPainter, mark: Mark, placed: Placed, *, chosen: bool = False) -> None:
    """Paint one mark; what runs along or up is drawn on whole pixels, which is crisp, and soon done."""
    level = isinstance(mark, Box) or (isinstance(mark, Line) and (mark.x1 == mark.x2 or mark.y1 == mark.y2))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, not level)
    match mark:
        case Line():
            painter.setPen(inks.pen(mark.style))
            painter.drawLine(QLineF(placed.point(mark.x1, mark.y1), placed.point(mark.x2, mark.y2)))
        case Words():
            _words(painter, mark, placed, chosen=chosen)
        case Dimension():
            _dimension(painter, mark, placed, chosen=chosen)
        case _ if mark.filled and inks.INKS[mark.style].hatched:
            _hatched(painter, mark, placed)
        case _:
            painter.setPen(inks.pen(mark.style))
            painter.setBrush(inks.wash(mark.style) if mark.filled else inks.NO_WASH)
            _closed(painter, mark, placed)


def outline(mark: Box | Shape | Ellipse, placed: Placed) -> QPainterPath:
    """The closed outline of a mark in pixels."""
    path = QPainterPath()
    match mark:
        case Box():
            path.addRect(placed.box(mark.x, mark.y, mark.width, mark.height))
        case Shape():
            path.addPolygon(QPolygonF([placed.point(x, y) for x, y in mark.points]))
            path.closeSubpath()
        case Ellipse():
            path.addEllipse(placed.point(mark.x, mark.y), mark.half_width * placed.scale, mark.half_height * placed.scale)
    return path


def words_box(mark: Words, placed: Placed) -> QRectF:
    """The room that words take, in pixels."""
    metrics = QFontMetricsF(inks.words_font(mark.size, bold=mark.bold))
    wide, high = metrics.horizontalAdvance(_cut(mark, metrics, placed)), metrics.height()
    at, along = placed.point(mark.x, mark.y), _ANCHORS[mark.anchor]
    if mark.turned:
        return QRectF(at.x() - high / 2, at.y() - wide * (1 - along), high, wide)
    return QRectF(at.x() - wide * along, at.y() - high / 2, wide, high)


def words_height() -> float:
    """How high a line of ordinary words is, pixels."""
    return QFontMetricsF(inks.words_font(inks.PAPER_MM, bold=False)).height()


def words_room(mark: Words | Dimension, scale: float) -> Rect:
    """The room that the words of a mark take at so many pixels a millimetre: left, bottom, right and top, mm of the drawing."""
    placed = Placed(scale, 0.0, 0.0)
    box = words_box(mark, placed) if isinstance(mark, Words) else dimension_box(mark, placed)
    return box.left() / scale, -box.bottom() / scale, box.right() / scale, -box.top() / scale


def dimension_box(mark: Dimension, placed: Placed) -> QRectF:
    """The room that a dimension's text takes, in pixels; beside its line where it does not fit into it."""
    metrics = QFontMetricsF(inks.words_font(inks.PAPER_MM, bold=False))
    wide, high = metrics.horizontalAdvance(mark.text) + 6, metrics.height()
    start, end = placed.point(mark.x1, mark.y1), placed.point(mark.x2, mark.y2)
    middle = (start + end) / 2
    length = math.hypot(end.x() - start.x(), end.y() - start.y())
    aside = high * 0.9 if length < wide + 2 * TICK else 0.0
    if abs(end.x() - start.x()) >= abs(end.y() - start.y()):
        return QRectF(middle.x() - wide / 2, middle.y() - high / 2 - aside, wide, high)
    return QRectF(middle.x() - high / 2 - aside, middle.y() - wide / 2, high, wide)


def _closed(painter: QPainter, mark: Box | Shape | Ellipse, placed: Placed) -> None:
    match mark:
        case Box():
            painter.drawRect(placed.box(mark.x, mark.y, mark.width, mark.height))
        case Shape():
            painter.drawPolygon(QPolygonF([placed.point(x, y) for x, y in mark.points]))
        case Ellipse():
            painter.drawEllipse(placed.point(mark.x, mark.y), mark.half_width * placed.scale, mark.half_height * placed.scale)


def _hatched(painter: QPainter, mark: Box | Shape | Ellipse, placed: Placed) -> None:
    """A wash with hatching on it, and an edge where the style has one: an existing wall has none. A box is soon filled."""
    brush = inks.hatch(mark.style, painter.device().devicePixelRatio())
    if isinstance(mark, Box):
        painter.fillRect(placed.box(mark.x, mark.y, mark.width, mark.height), brush)
    else:
        painter.fillPath(outline(mark, placed), brush)
    if mark.style != "wall":
        painter.setPen(inks.pen(mark.style))
        painter.setBrush(inks.NO_WASH)
        _closed(painter, mark, placed)


def handles_of(around: QRectF, *, top: bool) -> list[tuple[str, QPointF]]:
    """The handles on the dashed box round a piece, each with the way it is dragged; on top where its height can be moved."""
    middle = around.center()
    sides = [("along", QPointF(around.left(), middle.y())), ("along", QPointF(around.right(), middle.y()))]
    return [*sides, ("up", QPointF(middle.x(), around.top()))] if top else sides


def _handles(painter: QPainter, box: QRectF, *, top: bool) -> None:
    """A dashed box round a piece with its handles."""
    around = box.adjusted(-AROUND, -AROUND, AROUND, AROUND)
    painter.setPen(plain_pen("chalk", 1, dashed=True))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(around)
    for _, at in handles_of(around, top=top):
        handle = QRectF(at.x() - HANDLE / 2, at.y() - HANDLE / 2, HANDLE, HANDLE)
        panel(painter, handle, fill=look.colour("sheet"), edge=plain_pen("chalk", 2), radius=2)


def _centre_line(painter: QPainter, drawing: Drawing, placed: Placed, paths: list[QPainterPath]) -> None:
    """The centre line of a piece, from the top of the drawing down to where the piece ends in the last view."""
    _, y, _, high = drawing.extent
    x = paths[0].boundingRect().center().x()
    painter.setPen(inks.pen("datum"))
    painter.drawLine(QLineF(x, placed.point(0, y + high).y(), x, paths[-1].boundingRect().bottom()))


def _words(painter: QPainter, mark: Words, placed: Placed, *, chosen: bool) -> None:
    font, box = inks.words_font(mark.size, bold=mark.bold or chosen), words_box(mark, placed)
    if mark.loose:
        ground = QColor(look.colour("sheet"))
        ground.setAlphaF(PLATE)
        panel(painter, box.adjusted(-1, 1, 1, -1), fill=ground, radius=3)
    painter.setFont(font)
    painter.setPen(look.colour("chalk" if chosen else inks.words_tone(mark.style)))
    _write(painter, box, _cut(mark, QFontMetricsF(font), placed), turned=mark.turned)


def _cut(mark: Words, metrics: QFontMetricsF, placed: Placed) -> str:
    """The words as far as there is room for them; what stands after a comma goes first."""
    room, name = mark.most * placed.scale, mark.text.partition(", ")[0]
    if not mark.most or metrics.horizontalAdvance(mark.text) <= room:
        return mark.text
    return metrics.elidedText(name, Qt.TextElideMode.ElideRight, max(room, metrics.horizontalAdvance(name[:KEPT])))


def _dimension(painter: QPainter, mark: Dimension, placed: Placed, *, chosen: bool) -> None:
    tone = "chalk" if chosen else "tbc" if mark.tbc else "ink"
    start, end = placed.point(mark.x1, mark.y1), placed.point(mark.x2, mark.y2)
    painter.setPen(plain_pen(tone))
    painter.drawLine(QLineF(start, end))
    for at in (start, end):
        painter.drawLine(QLineF(at.x() - TICK, at.y() + TICK, at.x() + TICK, at.y() - TICK))
    box = dimension_box(mark, placed)
    ground = QColor(look.colour("tbcWash" if mark.tbc else "sheet"))
    panel(painter, box, fill=ground, edge=plain_pen("tbc", dashed=True) if mark.tbc else None, radius=3)
    painter.setFont(inks.words_font(inks.PAPER_MM, bold=chosen))
    painter.setPen(look.colour(tone))
    _write(painter, box, mark.text, turned=box.height() > box.width() and abs(start.y() - end.y()) > abs(start.x() - end.x()))


def _write(painter: QPainter, box: QRectF, text: str, *, turned: bool) -> None:
    if not turned:
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextDontClip, text)
        return
    painter.save()
    painter.translate(box.center())
    painter.rotate(-90)
    across = QRectF(-box.height() / 2, -box.width() / 2, box.height(), box.width())
    painter.drawText(across, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextDontClip, text)
    painter.restore()
