"""A drawing one can look into: zoom, pan, fit, and pieces to choose with the mouse or the keyboard.

The scene holds one item, which paints the drawing it was given last; nothing of an older drawing is kept but the id of the piece
chosen.
"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QResizeEvent, QTransform, QWheelEvent
from PySide6.QtWidgets import QFrame, QGraphicsItem, QGraphicsScene, QGraphicsView, QStyleOptionGraphicsItem, QWidget

from tundish.desktop.canvas import hits
from tundish.desktop.canvas.grip import Grip
from tundish.desktop.canvas.painting import Placed, fitted, paint_chosen, paint_drawing
from tundish.desktop.painted import ENTER
from tundish.documents.drawing import Drawing

NOTHING: Final = Drawing("", (), (0.0, 0.0, 1000.0, 1000.0))
_STEP: Final = 1.25
_CLOSEST: Final = 64.0
_FURTHEST: Final = 0.001
"""Least and greatest scale, pixels a millimetre."""
_FAR: Final = (-1e6, -1e6, 2e6, 2e6)
_ARROWS: Final = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, 1), Qt.Key.Key_Down: (0, -1)}
_LONG_STEP_MM: Final = 10


class DrawingView(QGraphicsView):
    """Shows a drawing, and says by id what is chosen, asked, nudged and dragged. It moves nothing itself."""

    chosen = Signal(str)
    opened = Signal(str)
    figure_asked = Signal(str)
    """The words or the dimension of a figure were pressed."""
    nudged = Signal(str, float, float)
    """Piece, and mm to the right and up, from an arrow key."""
    dragged = Signal(str, float, float)
    """Piece, and mm to the right and up from where the drag began; it is not over yet."""
    dropped = Signal(str, float, float)
    drag_left = Signal(str)
    """Escape during a drag: all is to be as before."""
    typed = Signal(str)
    """A digit was typed with a piece chosen: a box for its dimension is wanted, beginning with it."""
    dimension_stepped = Signal(str)
    add_asked = Signal()
    remove_asked = Signal(str)
    view_moved = Signal()
    """The drawing is seen elsewhere or at another scale."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setScene(QGraphicsScene(self))
        self.setAccessibleName(name)
        self.viewport().setAccessibleName(name)
        self._drawing = NOTHING
        self._chosen = ""
        self._fitted = True
        self._spots: list[QWidget] = []
        self._grip = Grip()
        self._panned_from: QPointF | None = None
        self._sheet = _Sheet()
        self.scene().addItem(self._sheet)
        self._behave()

    def show_drawing(self, drawing: Drawing) -> None:
        """Show a drawing in the place of the last; the view stays where it is, or fits again if it was fitted."""
        self._drawing = drawing
        if self._chosen and self._chosen not in dict(drawing.pieces):
            self.choose("")
        self._show_sheet()
        if self._fitted:
            self.fit()
        self._name_pieces()

    def drawing(self) -> Drawing:
        """The drawing shown."""
        return self._drawing

    def piece(self) -> str:
        """The id of the piece chosen, "" where none is."""
        return self._chosen

    def held_at(self) -> QPointF:
        """The point of the drawing, mm, that was pressed last: where a drag began."""
        return self._grip.start

    def box_of(self, piece: str) -> QRectF:
        """The room that a piece takes in the view, in pixels."""
        return hits.reach(self._drawing, self.placed(), piece)

    def choose(self, piece: str) -> None:
        """Mark a piece as chosen, without a signal."""
        if piece != self._chosen:
            self._grip.let_go()
        self._chosen = piece
        self.setAccessibleDescription(dict(self._drawing.pieces).get(piece, ""))
        self._show_sheet()

    def fit(self) -> None:
        """Show the whole drawing, and keep it whole while the window changes size."""
        self._fitted = True
        x, y, wide, high = self._drawing.extent
        placed = fitted(self._drawing.extent, QRectF(self.viewport().rect()))
        self._show_at(placed.scale, QPointF(x + wide / 2, y + high / 2))

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        """Make the drawing larger by a factor, about a point of the view or its middle."""
        self._fitted = False
        middle = QRectF(self.viewport().rect()).center()
        anchor = at if at is not None else middle
        still = self.to_mm(anchor)
        scale = max(min(self.placed().scale * factor, _CLOSEST), _FURTHEST)
        shift = (middle - anchor) / scale
        self._show_at(scale, QPointF(still.x() + shift.x(), still.y() - shift.y()))

    def placed(self) -> Placed:
        """Where the drawing's millimetres fall in the view."""
        seen = self.viewportTransform()
        return Placed(seen.m11(), seen.dx(), seen.dy())

    def to_mm(self, at: QPointF) -> QPointF:
        """The point of the drawing under a point of the view."""
        placed = self.placed()
        return QPointF((at.x() - placed.left) / placed.scale, (placed.base - at.y()) / placed.scale)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._fitted:
            self.fit()
        self._name_pieces()

    def wheelEvent(self, event: QWheelEvent) -> None:
        turns = event.angleDelta().y() / 120
        self.zoom(_STEP**turns, event.position())
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        if event.button() == Qt.MouseButton.MiddleButton:
            self._panned_from = at
        elif event.button() == Qt.MouseButton.LeftButton and self._grip.held:
            self._put_down(self.to_mm(at))
        elif event.button() == Qt.MouseButton.LeftButton:
            self._press(at)
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        if self._panned_from is not None:
            self._pan(at - self._panned_from)
            self._panned_from = at
        elif self._chosen and (move := self._grip.moved(at, self.to_mm(at))) is not None:
            self.dragged.emit(self._chosen, *move)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._panned_from = None
        if (move := self._grip.released(self.to_mm(event.position()))) is not None:
            self.dropped.emit(self._chosen, *move)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if not self._view_key(key) and not (self._chosen and self._piece_key(event, key)):
            if key == Qt.Key.Key_Insert:
                self.add_asked.emit()
            else:
                event.ignore()

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab walks the pieces in their order and then leaves; Ctrl+Tab leaves at once."""
        ids = [piece for piece, _ in self._drawing.pieces]
        place = ids.index(self._chosen) if self._chosen in ids else (-1 if forward else len(ids))
        after = place + (1 if forward else -1)
        if not 0 <= after < len(ids):
            return super().focusNextPrevChild(forward)
        self._take(ids[after])
        return True

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self._chosen:
            self.chosen.emit(self._chosen)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self.viewport().update()

    def _behave(self) -> None:
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setSceneRect(*_FAR)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.FullViewportUpdate)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def _show_at(self, scale: float, middle: QPointF) -> None:
        self.setTransform(QTransform.fromScale(scale, -scale))
        self.centerOn(middle)
        self._place_pieces()

    def _show_sheet(self) -> None:
        self._sheet.drawing, self._sheet.chosen = self._drawing, self._chosen
        self.viewport().update()

    def _press(self, at: QPointF) -> None:
        if figure := hits.figure_at(self._drawing, self.placed(), at):
            self.figure_asked.emit(figure)
            return
        piece = hits.piece_at(self._drawing, self.placed(), at)
        self._take(piece)
        if piece:
            self._grip.pressed(at, self.to_mm(at))

    def _take(self, piece: str) -> None:
        self.choose(piece)
        self.chosen.emit(piece)

    def _pan(self, pixels: QPointF) -> None:
        self._fitted = False
        middle = self.to_mm(QRectF(self.viewport().rect()).center() - pixels)
        self.centerOn(middle)
        self._place_pieces()

    def _put_down(self, at: QPointF) -> None:
        middle = hits.reach(self._drawing, self.placed(), self._chosen).center()
        start = self.to_mm(middle)
        self._grip.let_go()
        self.dropped.emit(self._chosen, at.x() - start.x(), at.y() - start.y())

    def _view_key(self, key: Qt.Key) -> bool:
        match key:
            case Qt.Key.Key_Plus | Qt.Key.Key_Equal:
                self.zoom(_STEP)
            case Qt.Key.Key_Minus:
                self.zoom(1 / _STEP)
            case Qt.Key.Key_Home:
                self.fit()
            case _:
                return False
        return True

    def _piece_key(self, event: QKeyEvent, key: Qt.Key) -> bool:
        """Do what a key means for the piece chosen; says whether it means anything."""
        if key in _ARROWS:
            step = _LONG_STEP_MM if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
            right, up = _ARROWS[key]
            self.nudged.emit(self._chosen, float(right * step), float(up * step))
        elif key == Qt.Key.Key_Escape and self._grip.let_go():
            self.drag_left.emit(self._chosen)
        elif key == Qt.Key.Key_Escape:
            self._take("")
        elif key in ENTER:
            self.opened.emit(self._chosen)
        elif key == Qt.Key.Key_Space:
            self._grip.pick_up_or_put_down()
        elif key == Qt.Key.Key_Delete:
            self.remove_asked.emit(self._chosen)
        elif key == Qt.Key.Key_D:
            self.dimension_stepped.emit(self._chosen)
        elif event.text().isdecimal() and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.typed.emit(event.text())
        else:
            return False
        return True

    def _name_pieces(self) -> None:
        """Lay an unpainted child over every piece, so that a screen reader finds it by name and place."""
        while len(self._spots) > len(self._drawing.pieces):
            self._spots.pop().deleteLater()
        while len(self._spots) < len(self._drawing.pieces):
            spot = QWidget(self.viewport())
            spot.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            self._spots.append(spot)
        for spot, (piece, name) in zip(self._spots, self._drawing.pieces, strict=True):
            spot.setObjectName(piece)
            spot.setAccessibleName(name)
        self._place_pieces()

    def _place_pieces(self) -> None:
        placed = self.placed()
        self.view_moved.emit()
        for spot in self._spots:
            spot.setGeometry(hits.reach(self._drawing, placed, spot.objectName()).toAlignedRect())
            spot.show()


class _Sheet(QGraphicsItem):
    """The one item of the scene: it paints whatever drawing it holds at the moment."""

    def __init__(self) -> None:
        super().__init__()
        self.drawing = NOTHING
        self.chosen = ""

    def boundingRect(self) -> QRectF:
        return QRectF(*_FAR)

    def paint(self, painter: QPainter, _option: QStyleOptionGraphicsItem, _widget: QWidget | None = None) -> None:
        """Paint it."""
        seen = painter.worldTransform()
        placed = Placed(seen.m11(), seen.dx(), seen.dy())
        painter.save()
        painter.resetTransform()
        paint_drawing(painter, self.drawing, placed, self.chosen)
        if self.chosen:
            paint_chosen(painter, self.drawing, placed, self.chosen)
        painter.restore()
