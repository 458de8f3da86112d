"""A drawing one can look into, with pieces to choose and to move with the mouse or the keyboard.

The scene holds one item, which paints the drawing it was given last; nothing of an older drawing is kept but the id of the piece
chosen.
"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from tundish.desktop import look
from tundish.desktop.canvas import hits
from tundish.desktop.canvas.glass import FAR, Glass
from tundish.desktop.canvas.grip import Grip
from tundish.desktop.canvas.painting import Placed, fitted, outline, paint_chosen, paint_drawing, ware_of, words_height, words_room
from tundish.desktop.canvas.spots import Said, Spots
from tundish.desktop.canvas.tape import Tape, note
from tundish.desktop.painted import ENTER
from tundish.documents.clear_words import clear_words
from tundish.documents.drawing import Drawing

NOTHING: Final = Drawing("", (), (0.0, 0.0, 1000.0, 1000.0))
_ARROWS: Final = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, 1), Qt.Key.Key_Down: (0, -1)}
_LONG_STEP_MM: Final = 10
CATCH: Final = 24
ROOMY_CATCH: Final = 32
"""How large a handle is to the pointer, pixels across."""


class DrawingView(Glass):
    """Shows a drawing, and says by id what is chosen, asked, nudged and dragged. It moves nothing itself."""

    chosen = Signal(str)
    come_back = Signal(str)
    """The keyboard came back to the piece that is chosen."""
    opened = Signal(str)
    figure_asked = Signal(str)
    """The words or the dimension of a figure were pressed."""
    dimension_pressed = Signal(object)
    """The `Dimension` whose figure was pressed: it is to be typed into."""
    nudged = Signal(str, float, float)
    """Piece, and mm to the right and up, from an arrow key."""
    dragged = Signal(str, float, float)
    """Piece, and mm to the right and up from where the drag began; it is not over yet."""
    dropped = Signal(str, float, float)
    picked_up = Signal(str)
    """Space: arrows and presses are to move it until it is put down."""
    put_down = Signal(str)
    drag_left = Signal(str)
    """Escape while a piece is dragged or picked up: all is to be as before."""
    typed = Signal(str)
    """A digit was typed with a piece chosen: a box for its dimension is wanted, beginning with it."""
    dimension_stepped = Signal(str)
    """D: the next size of the piece chosen is wanted; "" where none is: the sizes of what the pieces are on."""
    add_asked = Signal()
    remove_asked = Signal(str)
    resized = Signal()
    measured = Signal(str)
    """What the tape says."""
    tape_left = Signal()

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.viewport().setAccessibleName(name)
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)  # what is behind it need not be painted with it
        self._given = self._drawing = NOTHING
        self._cleared_at = 0.0
        self._chosen = ""
        self._free = False
        self._grip = Grip()
        self._spots = Spots(self.viewport())
        self._panned_from: QPointF | None = None
        self._sheet = _Sheet()
        self.scene().addItem(self._sheet)
        self.view_moved.connect(self._seen_otherwise)
        self._spots.taken.connect(self._take_by_reader)
        self._spots.moved.connect(lambda piece, by: self.nudged.emit(piece, by, 0.0))

    def show_drawing(self, drawing: Drawing) -> None:
        """Show a drawing in the place of the last; the view stays where it is, or fits again if it was fitted."""
        self._given = self._drawing = drawing
        if self._chosen and self._chosen not in dict(drawing.pieces):
            self.choose("")
        self.show_extent(drawing.extent)
        self._clear_words()
        self._spots.show_pieces(drawing.pieces)
        self._place_pieces()

    def line_mm(self) -> float:
        """How high a line of words is where all of the drawing is seen, mm of it."""
        return words_height() / fitted(self._given.extent, QRectF(self.viewport().rect())).scale

    def drawing(self) -> Drawing:
        """The drawing shown."""
        return self._drawing

    def piece(self) -> str:
        """The id of the piece chosen, "" where none is."""
        return self._chosen

    def held_at(self) -> QPointF:
        """The point of the drawing, mm, that was pressed last: where a drag began."""
        return self._grip.start

    def axis(self) -> str:
        """The way the handle that is held can go: "along", "up", or "" for either."""
        return self._grip.axis

    def holds(self) -> bool:
        """Whether a piece is dragged or picked up."""
        return self._grip.busy

    def free(self) -> bool:
        """Whether Alt was held at the last movement: nothing is to pull."""
        return self._free

    def box_of(self, piece: str) -> QRectF:
        """The room that a piece takes in the view, in pixels."""
        return hits.reach(self._drawing, self.placed(), piece)

    def choose(self, piece: str) -> None:
        """Mark a piece as chosen, without a signal."""
        if piece != self._chosen:
            self._grip.let_go()
        self._chosen = piece
        self.setAccessibleDescription(dict(self._drawing.pieces).get(piece, ""))
        self._spots.tell_chosen(piece)
        self._show_sheet()

    def let_go(self) -> None:
        """Hold nothing any more, without a signal."""
        self._grip.let_go()
        self.say("")

    def say(self, words: str) -> None:
        """Words beside the pointer, or beside the piece where the pointer is elsewhere; "" for none."""
        self._sheet.note = words
        self.viewport().update()

    def describe(self, said: dict[str, Said]) -> None:
        """What a screen reader says of pieces beside their names: where they are and how they move."""
        self._spots.describe(said)

    def tape(self) -> Tape | None:
        """The tape while it is out."""
        return self._sheet.tape

    def take_tape(self, *, out: bool) -> None:
        """Take the tape out, or put it away."""
        self._sheet.tape = Tape() if out else None
        self.viewport().setMouseTracking(out)
        self.viewport().setCursor(Qt.CursorShape.CrossCursor if out else Qt.CursorShape.ArrowCursor)
        self._tell_tape()

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        """The sheet that is drawn on."""
        painter.fillRect(rect, look.colour("sheet"))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place_pieces()
        self.resized.emit()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        left = event.button() == Qt.MouseButton.LeftButton
        if event.button() == Qt.MouseButton.MiddleButton:
            self._panned_from = at
        elif left and self._sheet.tape is not None:
            self._sheet.tape.point(self._drawing, self.placed(), at)
            self._sheet.tape.mark()
            self._tell_tape()
        elif left and self._grip.held:
            self._place_at(self.to_mm(at))
        elif left:
            self._press(at)
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        self._free = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        self._sheet.pointer = at
        if self._panned_from is not None:
            self.pan(at - self._panned_from)
            self._panned_from = at
        elif self._sheet.tape is not None:
            self._sheet.tape.point(self._drawing, self.placed(), at)
            self._tell_tape()
        elif self._chosen and (move := self._grip.moved(at, self.to_mm(at))) is not None:
            self.dragged.emit(self._chosen, *move)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._panned_from = None
        if (move := self._grip.released(self.to_mm(event.position()))) is not None:
            self._free = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
            self.dropped.emit(self._chosen, *move)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, ctrl = Qt.Key(event.key()), bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        if self._sheet.tape is not None and self._tape_key(event, key):
            return
        if not self.look_by_key(key, ctrl=ctrl or (key in _ARROWS and not self._chosen)) and not (
            self._chosen and self._piece_key(event, key)
        ):
            if key == Qt.Key.Key_Insert:
                self.add_asked.emit()
            elif key == Qt.Key.Key_D and not self._chosen:
                self.dimension_stepped.emit("")
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
            self._spots.tell_chosen(self._chosen)
            self.come_back.emit(self._chosen)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self.viewport().update()

    def _show_sheet(self) -> None:
        self._sheet.drawing, self._sheet.chosen = self._drawing, self._chosen
        self.viewport().update()

    def _seen_otherwise(self) -> None:
        """At another scale words take another part of the drawing."""
        if self.placed().scale != self._cleared_at:
            self._clear_words()
        self._place_pieces()

    def _clear_words(self) -> None:
        self._cleared_at = self.placed().scale
        self._drawing = clear_words(self._given, lambda mark: words_room(mark, self._cleared_at))
        self._show_sheet()

    def _press(self, at: QPointF) -> None:
        catch = ROOMY_CATCH if look.now().roomy else CATCH
        if axis := hits.handle_at(self._drawing, self.placed(), self._chosen, (at, catch)):
            self._grip.pressed(at, self.to_mm(at), axis)
            return
        if figure := hits.figure_at(self._drawing, self.placed(), at):
            self.figure_asked.emit(figure)
            if (mark := hits.dimension_at(self._drawing, self.placed(), at)) is not None:
                self.dimension_pressed.emit(mark)
            return
        piece = hits.piece_at(self._drawing, self.placed(), at)
        self._take(piece)
        if piece:
            self._grip.pressed(at, self.to_mm(at))

    def _take_by_reader(self, piece: str) -> None:
        self._take(piece)
        self.setFocus()

    def _take(self, piece: str) -> None:
        self.choose(piece)
        self.chosen.emit(piece)

    def _place_at(self, at: QPointF) -> None:
        """A press while the piece is picked up: there it is put down, as seen in the view that was pressed."""
        placed = self.placed()
        seen = [outline(mark, placed).boundingRect() for mark in ware_of(self._drawing, self._chosen)]
        middles = [self.to_mm(box.center()) for box in seen or [hits.reach(self._drawing, placed, self._chosen)]]
        start = min(middles, key=lambda middle: abs(middle.y() - at.y()))
        self.dropped.emit(self._chosen, *self._grip.placed(start, at))

    def _tape_key(self, event: QKeyEvent, key: Qt.Key) -> bool:
        tape = self._sheet.tape
        if tape is None or event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            return False
        if key in _ARROWS:
            step = 1 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else _LONG_STEP_MM
            right, up = _ARROWS[key]
            tape.step(right * step, up * step, self.to_mm(QRectF(self.viewport().rect()).center()))
        elif key in ENTER or key == Qt.Key.Key_Space:
            tape.mark()
        elif key == Qt.Key.Key_Escape:
            self.tape_left.emit()
            return True
        else:
            return False
        self._tell_tape()
        return True

    def _tell_tape(self) -> None:
        self.viewport().update()
        self.measured.emit(self._sheet.tape.words() if self._sheet.tape is not None else "")

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
        elif key == Qt.Key.Key_Space:
            self._pick_up_or_put_down()
        elif key in ENTER:
            self.opened.emit(self._chosen)
        elif key == Qt.Key.Key_Delete:
            self.remove_asked.emit(self._chosen)
        elif key == Qt.Key.Key_D:
            self.dimension_stepped.emit(self._chosen)
        elif event.text().isdecimal() and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.typed.emit(event.text())
        else:
            return False
        return True

    def _pick_up_or_put_down(self) -> None:
        if self._grip.held:
            self._grip.let_go()
            self.put_down.emit(self._chosen)
        else:
            self._grip.pick_up()
            self.picked_up.emit(self._chosen)

    def _place_pieces(self) -> None:
        if not self._grip.busy:
            self._spots.place(hits.reaches(self._drawing, self.placed()))


class _Sheet(QGraphicsItem):
    """The one item of the scene: it paints whatever drawing it holds at the moment."""

    def __init__(self) -> None:
        super().__init__()
        self.drawing = NOTHING
        self.chosen = ""
        self.note = ""
        self.pointer = QPointF()
        self.tape: Tape | None = None

    def boundingRect(self) -> QRectF:
        return QRectF(*FAR)

    def paint(self, painter: QPainter, _option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Paint it; words stay within the widget, for the painter's own room is the whole window's."""
        room = QRectF(widget.rect()) if widget is not None else QRectF(painter.viewport())
        seen = painter.worldTransform()
        placed = Placed(seen.m11(), seen.dx(), seen.dy())
        painter.save()
        painter.resetTransform()
        paint_drawing(painter, self.drawing, placed, self.chosen)
        if self.chosen:
            paint_chosen(painter, self.drawing, placed, self.chosen)
        if self.tape is not None:
            self.tape.paint(painter, placed, room)
        if self.note:
            note(painter, self.note, self.pointer, room)
        painter.restore()
