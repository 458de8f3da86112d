"""What a screen reader finds in a drawing: an unpainted child over every piece, with its name, its place and how it moves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Final

from PySide6.QtCore import QEvent, QObject, QRectF, Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QLabel, QSlider, QWidget

_FAR: Final = 100_000


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of a piece beside its name; `along` is where it is along the wall, mm, if it can be moved."""

    words: str
    along: float | None = None


class Spots(QObject):
    """The children of one view; they are kept from drawing to drawing, so that a reader stays where it is.

    A piece that can be moved is a slider at its place along the wall, any other a line of words.
    """

    taken = Signal(str)
    """A reader put the keyboard on a piece."""
    moved = Signal(str, float)
    """A reader moved a piece so far, mm."""

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self._over = over
        self._spots: dict[str, QWidget] = {}
        self._along: dict[str, int] = {}
        self._pieces: tuple[tuple[str, str], ...] = ()

    def show_pieces(self, pieces: tuple[tuple[str, str], ...]) -> None:
        """One child for each (id, name), in their order."""
        if pieces == self._pieces:
            return
        self._pieces = pieces
        for piece in self._spots.keys() - dict(pieces).keys():
            self._let_go(piece)
        for piece, name in pieces:
            spot = self._spots.get(piece) or self._make(piece, QLabel(self._over))
            spot.setAccessibleName(name)
            spot.raise_()  # the last among the children: so they are read in this order

    def place(self, boxes: Mapping[str, QRectF]) -> None:
        """Lay each over its piece."""
        for piece, spot in self._spots.items():
            spot.setGeometry(boxes.get(piece, QRectF()).toAlignedRect())
            spot.show()

    def describe(self, said: Mapping[str, Said]) -> None:
        """Say where pieces are and how they move."""
        for piece, spot in tuple(self._spots.items()):
            tells = said.get(piece, Said(""))
            if tells.words != spot.accessibleDescription():
                spot.setAccessibleDescription(tells.words)
            if tells.along is not None:
                self._put(piece, round(tells.along))

    def tell_chosen(self, piece: str) -> None:
        """Tell a screen reader that the keyboard is on a piece."""
        if (spot := self._spots.get(piece)) is not None:
            tell_focus(spot)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.FocusIn:
            self.taken.emit(watched.objectName())
        return super().eventFilter(watched, event)

    def _put(self, piece: str, along: int) -> None:
        spot = self._spots[piece]
        if not isinstance(spot, QSlider):
            slider = QSlider(Qt.Orientation.Horizontal, self._over)
            slider.setAccessibleName(spot.accessibleName())
            slider.setAccessibleDescription(spot.accessibleDescription())
            slider.setRange(-_FAR, _FAR)
            slider.setGeometry(spot.geometry())
            self._let_go(piece)
            self._make(piece, slider)
            slider.show()
            for each, _ in self._pieces:
                self._spots[each].raise_()
            spot = slider
        self._along[piece] = along
        if spot.value() != along:
            spot.blockSignals(True)
            spot.setValue(along)
            spot.blockSignals(False)

    def _make(self, piece: str, spot: QWidget) -> QWidget:
        spot.setObjectName(piece)
        spot.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        spot.setUpdatesEnabled(False)  # there is nothing of it to paint
        spot.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        spot.installEventFilter(self)
        if isinstance(spot, QSlider):
            spot.valueChanged.connect(partial(self._slid, piece))
        self._spots[piece] = spot
        return spot

    def _slid(self, piece: str, along: int) -> None:
        by = along - self._along[piece]
        self._along[piece] = along
        self.moved.emit(piece, float(by))

    def _let_go(self, piece: str) -> None:
        spot = self._spots.pop(piece)
        spot.hide()
        spot.deleteLater()


def tell_focus(spot: QWidget) -> None:
    """Tell a screen reader that the keyboard is there; the window itself keeps it at the drawing."""
    if QAccessible.isActive():
        QAccessible.updateAccessibility(QAccessibleEvent(spot, QAccessible.Event.Focus))
