"""What a drawing is looked at through: it fits, zooms and pans by wheel, keys and touchpad, and says where millimetres fall."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QNativeGestureEvent, QResizeEvent, QTransform, QWheelEvent
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView, QWidget

from tundish.desktop.canvas.painting import Placed, fitted

STEP: Final = 1.25
PAN_PX: Final = 60.0
"""How far a key pans."""
_CLOSEST: Final = 64.0
_FURTHEST: Final = 0.001
"""Greatest and least scale, pixels a millimetre."""
FAR: Final = (-1e6, -1e6, 2e6, 2e6)
_PANS: Final = {Qt.Key.Key_Left: (1, 0), Qt.Key.Key_Right: (-1, 0), Qt.Key.Key_Up: (0, 1), Qt.Key.Key_Down: (0, -1)}


class Glass(QGraphicsView):
    """Shows an extent of millimetres, y upwards."""

    view_moved = Signal()
    """The drawing is seen elsewhere or at another scale."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setScene(QGraphicsScene(self))
        self._extent = (0.0, 0.0, 1000.0, 1000.0)
        self._fitted = True
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setSceneRect(*FAR)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.FullViewportUpdate)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def show_extent(self, extent: tuple[float, float, float, float]) -> None:
        """What must be seen: fits again if it was fitted, else stays where it is."""
        same, self._extent = extent == self._extent, extent
        if self._fitted and not same:
            self.fit()

    def fit(self) -> None:
        """Show the whole drawing, and keep it whole while the window changes size."""
        self._fitted = True
        x, y, wide, high = self._extent
        placed = fitted(self._extent, QRectF(self.viewport().rect()))
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

    def pan(self, pixels: QPointF) -> None:
        """Push the drawing along by so many pixels."""
        self._fitted = False
        self.centerOn(self.to_mm(QRectF(self.viewport().rect()).center() - pixels))
        self.view_moved.emit()

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

    def wheelEvent(self, event: QWheelEvent) -> None:
        """A wheel zooms; two fingers on a touchpad, which come in pixels, pan, and zoom with Ctrl held."""
        pixels = QPointF(event.pixelDelta())
        if pixels.isNull() or event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.zoom(STEP ** (event.angleDelta().y() / 120), event.position())
        else:
            self.pan(pixels)
        event.accept()

    def viewportEvent(self, event: QEvent) -> bool:
        """Two fingers pinched on a touchpad zoom."""
        if isinstance(event, QNativeGestureEvent) and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture:
            self.zoom(1 + event.value(), event.position())
            return True
        return super().viewportEvent(event)

    def look_by_key(self, key: Qt.Key, *, ctrl: bool) -> bool:
        """Zoom, pan with Ctrl and an arrow, or show all, by a key; says whether the key means any of these."""
        match key:
            case Qt.Key.Key_Plus | Qt.Key.Key_Equal:
                self.zoom(STEP)
            case Qt.Key.Key_Minus:
                self.zoom(1 / STEP)
            case Qt.Key.Key_Home:
                self.fit()
            case _ if ctrl and key in _PANS:
                right, down = _PANS[key]
                self.pan(QPointF(right * PAN_PX, down * PAN_PX))
            case _:
                return False
        return True

    def _show_at(self, scale: float, middle: QPointF) -> None:
        self.setTransform(QTransform.fromScale(scale, -scale))
        self.centerOn(middle)
        self.view_moved.emit()
