"""How a piece is held: pressed and dragged with the mouse, or picked up with Space so that nothing need be dragged."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QPointF

FAR_ENOUGH: Final = 4
"""Pixels the pointer must go before a press is a drag."""


class Grip:
    """The state of holding: nothing, pressed, dragging, or picked up. `axis`: the way the handle that was taken hold of can go."""

    def __init__(self) -> None:
        self.held = False
        self.axis = ""
        self._pressed_at: QPointF | None = None
        self._from_mm = QPointF()
        self._dragging = False

    @property
    def start(self) -> QPointF:
        """Where the drawing was pressed last, mm."""
        return self._from_mm

    @property
    def busy(self) -> bool:
        """Whether something is dragged or picked up."""
        return self.held or self._dragging

    def pressed(self, at: QPointF, mm: QPointF, axis: str = "") -> None:
        """A piece was pressed at a point of the view and of the drawing, on a handle or anywhere on it."""
        self._pressed_at, self._from_mm, self._dragging, self.axis = at, mm, False, axis

    def moved(self, at: QPointF, mm: QPointF) -> tuple[float, float] | None:
        """The pointer moved: how far the piece is dragged, in mm, or None while it is not."""
        if self._pressed_at is None:
            return None
        self._dragging = self._dragging or (at - self._pressed_at).manhattanLength() > FAR_ENOUGH
        return self._way(mm) if self._dragging else None

    def released(self, mm: QPointF) -> tuple[float, float] | None:
        """The button was let go: how far the piece was dragged in all, or None if it was only pressed."""
        way = self._way(mm) if self._dragging else None
        self._pressed_at, self._dragging = None, False
        return way

    def placed(self, start: QPointF, mm: QPointF) -> tuple[float, float]:
        """A press while it is picked up: how far that is from where the piece was, in mm; it is held no more."""
        self.let_go()
        self._from_mm = start
        return self._way(mm)

    def pick_up(self) -> None:
        """Space: hold the piece, so that arrows or a press place it."""
        self.held, self.axis = True, ""

    def let_go(self) -> bool:
        """Let go of everything; says whether something was held or dragged."""
        was = self.busy
        self.held, self._pressed_at, self._dragging, self.axis = False, None, False, ""
        return was

    def _way(self, mm: QPointF) -> tuple[float, float]:
        way = mm - self._from_mm
        return way.x(), way.y()
