"""What a screen reader finds in a drawing: an unpainted child over every piece, with its name, its place and how it moves."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QWidget


class Spots:
    """The children of one view; they are kept from drawing to drawing, so that a reader stays where it is."""

    def __init__(self, over: QWidget) -> None:
        self._over = over
        self._spots: list[QWidget] = []
        self._pieces: tuple[tuple[str, str], ...] = ()

    def show_pieces(self, pieces: tuple[tuple[str, str], ...]) -> None:
        """One child for each (id, name)."""
        if pieces == self._pieces:
            return
        self._pieces = pieces
        while len(self._spots) > len(pieces):
            self._spots.pop().deleteLater()
        while len(self._spots) < len(pieces):
            spot = QWidget(self._over)
            spot.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            spot.setUpdatesEnabled(False)  # there is nothing of it to paint
            self._spots.append(spot)
        for spot, (piece, name) in zip(self._spots, pieces, strict=True):
            spot.setObjectName(piece)
            spot.setAccessibleName(name)
            spot.setAccessibleDescription("")

    def place(self, boxes: Mapping[str, QRectF]) -> None:
        """Lay each over its piece."""
        for spot in self._spots:
            spot.setGeometry(boxes.get(spot.objectName(), QRectF()).toAlignedRect())
            spot.show()

    def describe(self, moves: Mapping[str, str]) -> None:
        """Say where pieces are and how they move."""
        for spot in self._spots:
            words = moves.get(spot.objectName(), "")
            if words != spot.accessibleDescription():
                spot.setAccessibleDescription(words)

    def tell_chosen(self, piece: str) -> None:
        """Tell a screen reader that the keyboard is on a piece."""
        spot = next((each for each in self._spots if piece and each.objectName() == piece), None)
        if spot is not None and QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleEvent(spot, QAccessible.Event.Focus))
