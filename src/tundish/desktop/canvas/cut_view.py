"""A cut plan to scale, as wide as there is room: bars under one another or sheets side by side, with pieces to choose."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish.desktop import icons, look
from tundish.desktop.canvas import hits
from tundish.desktop.canvas.painting import Placed, paint_mark, words_box
from tundish.documents.drawing import Box, Drawing, Mark, Words

RING: Final = 14
"""Side of the half ring in a piece that must not be cut yet, pixels at 100 %."""
INSIDE: Final = 4
ROW: Final = 22
"""Least height of a row of pieces, pixels at 100 %."""
_STEPS: Final = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}


@dataclass(frozen=True, slots=True)
class Margins:
    """Room for words beside the drawing, pixels at 100 %, the mm that fill the rest, and the greatest scale in pixels a mm.

    `row` is the height in mm of a row that is drawn high enough to write in, whatever the scale along it; 0 keeps the scale.
    """

    left: int
    right: int
    across: float
    most: float = 1.0
    row: float = 0.0


class CutView(QWidget):
    """Shows one plan. The arrow keys go from piece to piece; what is chosen is told by its mark."""

    chosen = Signal(str)
    reached = Signal(QRect)
    """Where the piece chosen by the keyboard is, for a page that scrolls."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._given = self._drawing = Drawing("", (), (0, 0, 1, 1))
        self._margins = Margins(0, 0, 1.0)
        self._chosen = ""
        self._spots: list[QWidget] = []
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_drawing(self, drawing: Drawing, margins: Margins, words: str) -> None:
        """Show a plan; `words` say it to a screen reader."""
        self._given, self._margins = drawing, margins
        self._drawing = drawing
        self.setAccessibleName(words)
        if self._chosen not in dict(drawing.pieces):
            self._chosen = ""
        self._name_pieces()
        self._take_height()
        self.update()

    def piece(self) -> str:
        """The mark of the piece chosen, "" where none is."""
        return self._chosen

    def choose(self, piece: str) -> None:
        """Mark a piece as chosen, without a signal."""
        self._chosen = piece
        self.setAccessibleDescription(dict(self._drawing.pieces).get(piece, ""))
        self.update()

    def place_of(self, piece: str) -> QRect:
        """Where a piece is seen."""
        return hits.reach(self._drawing, self._placed(), piece).toAlignedRect()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        placed = self._placed()
        boxes = {mark.piece: mark for mark in self._drawing.marks if isinstance(mark, Box) and mark.piece}
        for mark in self._drawing.marks:
            chosen = bool(self._chosen) and mark.piece == self._chosen
            if isinstance(mark, Words) and mark.piece:
                self._paint_words(painter, mark, boxes[mark.piece], placed, chosen=chosen)
            elif not (isinstance(mark, Words) and mark.most and self._too_long(mark, placed)):
                paint_mark(painter, replace(mark, style="chosen") if chosen and isinstance(mark, Box) else mark, placed)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        piece = hits.piece_at(self._drawing, self._placed(), QPointF(event.position()))
        if piece:
            self.choose(piece)
            self.chosen.emit(piece)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _STEPS.get(Qt.Key(event.key()))
        marks = [mark for mark, _ in self._drawing.pieces]
        if step is None or not marks:
            super().keyPressEvent(event)
            return
        place = marks.index(self._chosen) + step if self._chosen in marks else 0
        self._go_to(marks[max(0, min(place, len(marks) - 1))])

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() != Qt.FocusReason.MouseFocusReason and self._drawing.pieces:
            self._go_to(self._chosen or self._drawing.pieces[0][0])

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._take_height()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._take_height()

    def _go_to(self, piece: str) -> None:
        self.choose(piece)
        self.chosen.emit(piece)
        self.reached.emit(self.place_of(piece))

    def _placed(self) -> Placed:
        px, margins = look.now().px, self._margins
        free = max(self.width() - px(margins.left) - px(margins.right), px(80))
        scale = min(free / max(margins.across, 1.0), margins.most * look.now().percent / 100)
        _, low, _, high = self._drawing.extent
        return Placed(scale, px(margins.left) + 1, (low + high) * scale + 1)

    def _take_height(self) -> None:
        if self._margins.row:
            self._drawing = stretched(self._given, max(1.0, look.now().px(ROW) / (self._margins.row * self._placed().scale)))
        self.setFixedHeight(round(self._drawing.extent[3] * self._placed().scale) + 3)
        for spot in self._spots:
            spot.setGeometry(self.place_of(spot.objectName()))

    def _name_pieces(self) -> None:
        """Lay an unpainted child over every piece, so that a screen reader finds it by name and place."""
        while len(self._spots) > len(self._drawing.pieces):
            self._spots.pop().deleteLater()
        while len(self._spots) < len(self._drawing.pieces):
            spot = QWidget(self)
            spot.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            spot.show()
            self._spots.append(spot)
        for spot, (piece, name) in zip(self._spots, self._drawing.pieces, strict=True):
            spot.setObjectName(piece)
            spot.setAccessibleName(name)

    @staticmethod
    def _fits(mark: Words, placed: Placed, room: QRectF) -> bool:
        box = words_box(mark, placed)
        return box.height() <= room.height() if mark.turned else box.width() <= room.width()

    @staticmethod
    def _too_long(mark: Words, placed: Placed) -> bool:
        box = words_box(replace(mark, most=0.0), placed)
        return max(box.width(), box.height()) > mark.most * placed.scale

    def _paint_words(self, painter: QPainter, mark: Words, box: Box, placed: Placed, *, chosen: bool) -> None:
        """The words of a piece as far as they fit into it, and the half ring where there is room for it."""
        room = placed.box(box.x, box.y, box.width, box.height).adjusted(INSIDE, 0, -INSIDE, 0)
        ring = look.now().px(RING)
        fits = [each for each in (mark.text, mark.text.partition(" ")[0]) if self._fits(replace(mark, text=each), placed, room)]
        ringed = box.style == "tbc" and self._paint_ring(painter, room, ring, fits, mark, placed)
        if not fits:
            return
        shift = -(ring + INSIDE) / 2 / placed.scale if ringed else 0.0
        paint_mark(painter, replace(mark, text=fits[0], x=mark.x + shift), placed, chosen=chosen)

    @staticmethod
    def _paint_ring(painter: QPainter, room: QRectF, ring: int, fits: list[str], mark: Words, placed: Placed) -> bool:
        """Paint the half ring beside the longest words that leave room for it; the others are dropped from `fits`."""
        with_ring = [each for each in fits if words_box(replace(mark, text=each), placed).width() + ring + INSIDE <= room.width()]
        if not with_ring:
            return False
        fits[:] = with_ring
        at = QRect(round(room.right()) - ring, round(room.center().y() - ring / 2), ring, ring)
        icons.draw(painter, at, "half", "tbc")
        return True


def stretched(drawing: Drawing, by: float) -> Drawing:
    """A drawing of boxes and words, higher by a factor and as wide as before."""
    marks: list[Mark] = []
    for mark in drawing.marks:
        if isinstance(mark, Box):
            marks.append(replace(mark, y=mark.y * by, height=mark.height * by))
        else:
            marks.append(replace(mark, y=mark.y * by) if isinstance(mark, Words) else mark)
    x, y, wide, high = drawing.extent
    return replace(drawing, marks=tuple(marks), extent=(x, y * by, wide, high * by))
