"""How the cells and heads of a table are painted."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QLineF, QModelIndex, QPersistentModelIndex, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPainterPath
from PySide6.QtWidgets import QHeaderView, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from tundish.desktop import icons, look
from tundish.desktop.cells import Cell, Group, Row
from tundish.desktop.gauge import paint_gauge
from tundish.desktop.painted import pen, width_of, write
from tundish.desktop.table_model import TableModel

Index = QModelIndex | QPersistentModelIndex

EDGE: Final = 14
"""Space before the first column and after the last, pixels at 100 %."""
GAP: Final = 8
"""Space on either side of a column, pixels at 100 %."""
GLYPH: Final = 16


class CellPainter(QStyledItemDelegate):
    """Paints the cells from the model's rows; the chosen row has a wash and a bar at the left."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint it."""
        model = index.model()
        if not isinstance(model, TableModel):
            return
        entry = model.entry(index.row())
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        rect = option.rect
        painter.fillRect(rect, look.colour(_ground(entry, chosen=chosen)))
        inner = inside(rect, index.column(), len(model.columns))
        if chosen and index.column() == 0:
            painter.fillRect(QRect(rect.x(), rect.y(), 4, rect.height()), look.colour("chalk"))
        if isinstance(entry, Group):
            self._paint_head(painter, inner, model, index)
            return
        column = model.columns[index.column()]
        paint_cell(painter, inner, model.cell(index.row(), index.column()), right=column.right, dim=entry.old)
        _rule(painter, rect, index.column(), len(model.columns), "edge" if entry.total else "hairline")

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        return option.rect.size()

    def _paint_head(self, painter: QPainter, inner: QRect, model: TableModel, index: Index) -> None:
        px = look.now().px
        entry = model.entry(index.row())
        if index.column() or not isinstance(entry, Group):
            cell = model.cell(index.row(), index.column())
            paint_cell(painter, inner, cell, right=model.columns[index.column()].right)
            return
        left = inner.x()
        if entry.folds:
            glyph = "chevr" if model.folded(entry.id) else "chevd"
            side = px(14)
            icons.draw(painter, QRect(left - px(2), inner.y() + (inner.height() - side) // 2, side, side), glyph, "ink")
            left += px(18)
        wide = min(width_of(entry.title, "tableStrong"), inner.right() - left)
        write(painter, QRect(left, inner.y(), wide + 1, inner.height()), entry.title, "tableStrong")
        left += wide + px(9)
        write(painter, QRect(left, inner.y(), max(inner.right() - left, 0), inner.height()), entry.note, "note", entry.note_tone)


class Head(QHeaderView):
    """The heads of the columns, on a tray with the card's rounded corners."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setSectionsClickable(False)
        self.setHighlightSections(False)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def sizeHint(self) -> QSize:
        return QSize(super().sizeHint().width(), look.now().px(28))

    def paintSection(self, painter: QPainter, rect: QRect, section: int) -> None:
        model = self.model()
        if not isinstance(model, TableModel) or not rect.isValid():
            return
        last = len(model.columns) - 1
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillPath(_tray(QRectF(rect), first=section == 0, last=section == last), look.colour("tray"))
        column = model.columns[section]
        write(painter, inside(rect, section, last + 1), column.title, "noteStrong", "ink2", right=column.right)


def paint_cell(painter: QPainter, inner: QRect, cell: Cell, *, right: bool, dim: bool = False) -> None:
    """Paint a cell's glyph, text and second line, or its gauge, in the room inside its edges."""
    px = look.now().px
    if cell.gauge is not None:
        paint_gauge(painter, QRectF(inner), cell.gauge)
        return
    room = QRect(inner)
    if cell.glyph:
        _paint_glyph(painter, room, cell, right=right)
        if not right:
            room.setLeft(room.left() + px(GLYPH) + px(6))
    tone = "ink2" if dim else cell.tone
    role = "tableStrong" if cell.strong else "table"
    if cell.below:
        half = room.height() // 2
        upper = QRect(room.x(), room.y() + px(1), room.width(), half)
        write(painter, upper, cell.text, "tableStrong" if cell.strong else role, tone, right=right)
        lower = QRect(room.x(), room.y() + half - px(2), room.width(), room.height() - half)
        write(painter, lower, cell.below, "note", cell.below_tone, right=right)
    else:
        write(painter, room, cell.text, role, tone, right=right)


def inside(rect: QRect, column: int, columns: int) -> QRect:
    """The room of a cell inside its edges; the first and last columns stand clear of the card's sides."""
    px = look.now().px
    left = px(EDGE if column == 0 else GAP)
    right = px(EDGE - 2 if column == columns - 1 else GAP)
    return rect.adjusted(left, 0, -right, 0)


def _paint_glyph(painter: QPainter, room: QRect, cell: Cell, *, right: bool) -> None:
    side = look.now().px(GLYPH if room.height() < look.now().px(36) else GLYPH + 4)
    left = room.left()
    if right:
        left = room.right() - side - (width_of(cell.text, "table") + look.now().px(4) if cell.text else 0)
    icons.draw(painter, QRect(QPoint(left, room.y() + (room.height() - side) // 2), QSize(side, side)), cell.glyph, cell.glyph_tone)


def _ground(entry: Row | Group, *, chosen: bool) -> str:
    if chosen:
        return "chalkWash"
    return "plaster" if isinstance(entry, Group) else "sheet"


def _rule(painter: QPainter, rect: QRect, column: int, columns: int, tone: str) -> None:
    px = look.now().px
    left = rect.left() + (px(EDGE) if column == 0 else 0)
    right = rect.right() - (px(EDGE - 2) if column == columns - 1 else -1)
    painter.setPen(pen(tone))
    painter.drawLine(QLineF(left, rect.bottom(), right, rect.bottom()))


def _tray(rect: QRectF, *, first: bool, last: bool) -> QPainterPath:
    """A section's ground, with the outer upper corners rounded."""
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.WindingFill)
    if not (first or last):
        path.addRect(rect)
        return path
    path.addRoundedRect(rect, 5, 5)
    path.addRect(rect.adjusted(0, rect.height() / 2, 0, 0))
    if not first:
        path.addRect(rect.adjusted(0, 0, -rect.width() / 2, 0))
    if not last:
        path.addRect(rect.adjusted(rect.width() / 2, 0, 0, 0))
    return path
