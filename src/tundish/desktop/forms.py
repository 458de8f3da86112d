"""Forms: rows of label, source mark, box, unit and note, with what is wrong under the box; grouped under heads, in one scroll."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from tundish.desktop import icons, look
from tundish.desktop.boxes import Box, NoteBox, TickBox
from tundish.desktop.chooser import Chooser
from tundish.desktop.flow import Flow
from tundish.desktop.form_heads import EDGE, LABEL, MARK, GroupHead
from tundish.desktop.painted import panel, pen, width_of, write
from tundish.desktop.words import clear_out

AnyBox = Box | Chooser | TickBox | NoteBox

_SPOKEN_UNITS: Final = {
    "mm": "millimetres",
    "m": "metres",
    "m²": "square metres",
    "kg": "kilograms",
    "%": "per cent",
    "£": "pounds",
    "h": "hours",
}
_OR: Final = "or …"
_OR_WIDE: Final = 36
_WIDEST_CHOICE: Final = 300
_WIDEST_RANGE: Final = 180
_WRAPPED: Final = Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop


class FormRow(QWidget):
    """One input of a form, known by the path of the fact it fills. It paints all but its box."""

    taken = Signal(str, str)
    stepped = Signal(str, int)
    put_back = Signal(str)
    entered = Signal(str)
    tbc_asked = Signal(str)
    usual_asked = Signal(str)
    known_asked = Signal(str)

    def __init__(self, path: str, label: str, box: AnyBox, *, unit: str = "", note: str = "", box_wide: int = 84) -> None:
        super().__init__()
        self.path, self.label, self.box, self.unit = path, label, box, unit
        self._note, self._box_wide = note, box_wide
        self._source, self._tag, self._tag_tone = "", "", "tbc"
        self._under, self._under_tone = "", "fails"
        self._tag_room, self._or_room = QRectF(), QRect()
        self._may_be_open = False
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        box.setParent(self)
        self._listen()
        self._say()

    def show_value(self, text: str) -> None:
        """Show the fact as text; in a chooser, choose it."""
        if isinstance(self.box, Chooser):
            self.box.choose(text)
        else:
            self.box.show_value(text)
            if isinstance(self.box, Box) and self.box.is_figure:
                self._place()

    def set_source(self, source: str) -> None:
        """Show how the fact is known, by the spoken word of its mark ("measured"), or nothing."""
        self._source = source
        self._changed()

    @property
    def bad(self) -> bool:
        """Whether the box holds words that could not be used."""
        return isinstance(self.box, Box) and self.box.property("state") == "bad"

    @property
    def needed(self) -> bool:
        """Whether it is blank and says that something is needed or usual."""
        return isinstance(self.box, Box) and not self.box.text() and bool(self._tag)

    def mark_room(self) -> QRect:
        """Where the mark of the source is, large enough to press."""
        px = look.now().px
        return QRect(px(EDGE + LABEL) - px(5), 0, px(MARK), self._line_high())

    def rename(self, label: str) -> None:
        """Call the fact otherwise: what it is goes by another answer."""
        self.label = label
        self._changed()

    def set_note(self, note: str) -> None:
        """Words after the unit: from where it is measured, by whom."""
        self._note = note
        self._changed()

    def set_tag(self, words: str, tone: str = "tbc") -> None:
        """A tag at the right, "TBC" or "TBC by client"; "" takes it away."""
        self._tag, self._tag_tone = words, tone
        self._place()
        self._changed()

    def offer_or(self, *, offered: bool) -> None:
        """Whether its choice may be left open: "or …" stands beside the box."""
        self._may_be_open = offered
        self._place()
        self._changed()

    def or_room(self) -> QRect:
        """Where "or …" is, large enough to press; empty where it is not offered."""
        return self._or_room

    def show_error(self, words: str) -> None:
        """Say under the box why its text cannot be used; the text is kept."""
        self._under, self._under_tone = words, "fails"
        if isinstance(self.box, Box | Chooser):
            self.box.show_bad(bad=bool(words))
        self._changed()

    def show_question(self, words: str) -> None:
        """Ask under the box about a value that is kept though it is unlikely."""
        self.show_error("")
        self._under, self._under_tone = words, "tbc"
        self._changed()

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(LABEL + MARK + self._box_wide + 100), self._line_high() + self._under_high())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        px, high = look.now().px, self._line_high()
        write(painter, QRect(px(EDGE), 0, px(LABEL), look.now().row(36)), "" if isinstance(self.box, TickBox) else self.label, "body")
        if self._source:
            side = px(15)
            tone = "tbc" if self._source == "assumed" else "ink2"
            icons.draw(painter, QRect(px(EDGE + LABEL), (high - side) // 2, side, side), icons.SOURCES[self._source], tone)
        right = self._paint_tag(painter, high)
        left = self.box.geometry().right() + px(8)
        if self.unit:
            write(painter, QRect(left, 0, max(right - left, 0), high), self.unit, "body", "ink2")
            left += width_of(self.unit, "body") + px(6)
        self._or_room = QRect(left - px(4), 0, min(px(_OR_WIDE), max(right - left, 0)), high) if self._may_be_open else QRect()
        if self._may_be_open:
            write(painter, self._or_room.adjusted(px(4), 0, 0, 0), _OR, "table", "ink2")
            left += px(_OR_WIDE)
        write(painter, QRect(left, 0, max(right - left, 0), high), self._note, "table", "ink2")
        painter.setFont(look.font("note"))
        painter.setPen(look.colour(self._under_tone))
        painter.drawText(self._under_room(), _WRAPPED, self._under)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()
        if self._under:
            self.updateGeometry()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._changed()
            self._place()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A press on the label goes to the box; on the mark of the source it asks how the value is known, on the tag for the usual size."""
        event.accept()
        self.box.setFocus(Qt.FocusReason.MouseFocusReason)
        if self._source and self.mark_room().contains(event.position().toPoint()):
            self.known_asked.emit(self.path)
        elif self._or_room.contains(event.position().toPoint()):
            self.tbc_asked.emit(self.path)
        elif self._tag and self._tag_room.adjusted(-4, -4, 4, 4).contains(event.position()):
            self.usual_asked.emit(self.path)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        event.accept()

    def event(self, event: QEvent) -> bool:
        """Answer one of Qt's events before Qt does."""
        if event.type() == QEvent.Type.ToolTip:
            self.setToolTip(f"{self._source.capitalize()}: press the mark, or Ctrl+K, to say how it is known" if self._source else "")
        return super().event(event)

    def _listen(self) -> None:
        self.box.taken.connect(self._box_taken)
        self.box.entered.connect(self._box_entered)
        if isinstance(self.box, Box):
            self.box.stepped.connect(self._box_stepped)
            self.box.usual_asked.connect(self._box_usual)
            self.box.known_asked.connect(self._box_known)
        if isinstance(self.box, Box | Chooser | TickBox):
            self.box.tbc_asked.connect(self._box_tbc)
        if isinstance(self.box, Box | NoteBox):
            self.box.put_back.connect(self._box_put_back)

    def _box_taken(self, text: str) -> None:
        self.taken.emit(self.path, text)

    def _box_entered(self) -> None:
        self.entered.emit(self.path)

    def _box_stepped(self, steps: int) -> None:
        self.stepped.emit(self.path, steps)

    def _box_tbc(self) -> None:
        self.tbc_asked.emit(self.path)

    def _box_usual(self) -> None:
        self.usual_asked.emit(self.path)

    def _box_known(self) -> None:
        self.known_asked.emit(self.path)

    def _box_put_back(self) -> None:
        self.show_error("")
        self.put_back.emit(self.path)

    def _changed(self) -> None:
        self._say()
        self.updateGeometry()
        self.update()

    def _say(self) -> None:
        unit = _SPOKEN_UNITS.get(self.unit, self.unit)
        self.box.setAccessibleName(", ".join(part for part in (self.label, unit, self._note) if part))
        tag = "To be confirmed" if self._tag.startswith("TBC") else self._tag
        more = "Control T leaves it open: this or that" if self._may_be_open else ""
        parts = (self._source.capitalize(), tag, self._under, more)
        self.box.setAccessibleDescription(". ".join(part for part in parts if part))

    def _place(self) -> None:
        px = look.now().px
        left = px(EDGE + LABEL + MARK)
        high = self.box.sizeHint().height()
        room = self.width() - left - px(EDGE) - (px(_OR_WIDE) + self._tag_wide() if self._may_be_open else 0)
        wide = room if self._box_wide == 0 else min(self._asked(), room)
        self.box.setGeometry(left, max((look.now().row(36) - high) // 2, px(3)), wide, high)

    def _asked(self) -> int:
        """How wide the box wants to be: a choice as its longest words (a long list of items is cut all the same), a figure as its range."""
        px = look.now().px
        if isinstance(self.box, Chooser):
            return max(px(self._box_wide), min(self.box.sizeHint().width(), px(_WIDEST_CHOICE)))
        if isinstance(self.box, Box) and self.box.is_figure:
            return max(px(self._box_wide), min(self.box.fontMetrics().horizontalAdvance(self.box.text()) + px(24), px(_WIDEST_RANGE)))
        return px(self._box_wide)

    def _line_high(self) -> int:
        px = look.now().px
        return max(look.now().row(36), self.box.sizeHint().height() + px(6))

    def _under_room(self) -> QRect:
        px = look.now().px
        left = px(EDGE + LABEL + MARK)
        return QRect(left, self._line_high() - px(2), max(self.width() - left - px(EDGE), px(120)), self._under_high())

    def _under_high(self) -> int:
        if not self._under:
            return 0
        px = look.now().px
        room = max(self.width() - px(EDGE + LABEL + MARK + EDGE), px(120))
        return QFontMetrics(look.font("note")).boundingRect(0, 0, room, 10_000, _WRAPPED, self._under).height() + px(4)

    def _tag_wide(self) -> int:
        """How much room the tag takes, with what is left before it."""
        return width_of(self._tag, "noteStrong") + look.now().px(24) if self._tag else 0

    def _paint_tag(self, painter: QPainter, high: int) -> int:
        """Paint the tag at the right; gives where the room before it ends."""
        px = look.now().px
        right = self.width() - px(EDGE)
        if not self._tag:
            self._tag_room = QRectF()
            return right
        wide, tall = self._tag_wide() - px(8), px(20)
        box = QRectF(right - wide, (high - tall) / 2, wide, tall)
        self._tag_room = box
        edge = pen(self._tag_tone, dashed=self._tag_tone == "tbc")
        panel(painter, box, fill=look.colour(f"{self._tag_tone}Wash"), edge=edge)
        painter.setFont(look.font("noteStrong"))
        painter.setPen(look.colour(self._tag_tone))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self._tag)
        return right - wide - px(8)


class Form(QScrollArea):
    """Rows under heads, in one scroll; whatever happens in a box is told with the path of its row."""

    taken = Signal(str, str)
    stepped = Signal(str, int)
    put_back = Signal(str)
    entered = Signal(str)
    tbc_asked = Signal(str)
    usual_asked = Signal(str)
    known_asked = Signal(str)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._rows: dict[str, FormRow] = {}
        self._heads: dict[str, GroupHead] = {}
        self._body = QWidget()
        self._body.setProperty("kind", "clear")
        self._column = QVBoxLayout(self._body)
        self._column.setContentsMargins(0, 0, 0, 8)
        self._column.setSpacing(0)
        self._column.addStretch(1)
        self.setWidget(self._body)

    def add_group(self, title: str, note: str = "") -> GroupHead:
        """Begin a group of rows."""
        head = GroupHead(title, note)
        self._heads[title] = head
        self.add_part(head)
        return head

    def add(self, row: FormRow) -> FormRow:
        """Add a row to the group begun last."""
        self._rows[row.path] = row
        row.taken.connect(self.taken)
        row.stepped.connect(self.stepped)
        row.put_back.connect(self.put_back)
        row.entered.connect(self.entered)
        row.tbc_asked.connect(self.tbc_asked)
        row.usual_asked.connect(self.usual_asked)
        row.known_asked.connect(self.known_asked)
        self.add_part(row)
        return row

    def add_part(self, part: QWidget) -> None:
        """Add anything else that belongs between the rows: a table, a sum, a note."""
        self._column.insertWidget(self._column.count() - 1, part)
        part.show()

    def add_buttons(self, *buttons: QWidget) -> None:
        """Add a line of buttons that goes on in another where it is too narrow; nothing where there are none."""
        if buttons:
            self.add_part(Flow(buttons))

    def clear(self) -> None:
        """Take every row and head away; the keyboard leaves first, so that nothing is told of a box that has gone."""
        focused = QApplication.focusWidget()
        if focused is not None and self.isAncestorOf(focused):
            focused.clearFocus()
        clear_out(self._column)
        self._column.addStretch(1)
        self._rows.clear()
        self._heads.clear()

    def row(self, path: str) -> FormRow:
        """The row of a path."""
        return self._rows[path]

    def rows(self) -> tuple[FormRow, ...]:
        """Every row, in reading order."""
        return tuple(self._rows.values())

    def lay_out(self) -> None:
        """Lay the rows out now: those added a moment ago are not yet."""
        high = max(self._column.totalMinimumSize().height(), self.viewport().height())
        self._body.resize(self.viewport().width(), high)
        self._column.activate()

    def show_group(self, title: str) -> None:
        """Bring a group to the top of the view, with the keyboard in the first of it that takes the keyboard."""
        head = self._heads[title]
        self.lay_out()
        self.verticalScrollBar().setValue(head.y())
        boxes = (box for part in self._under(head) for box in (part, *part.findChildren(QWidget)) if box.isVisibleTo(self))
        first = next((box for box in boxes if box.focusPolicy() & Qt.FocusPolicy.TabFocus and box.isEnabled()), None)
        if first is not None:
            first.setFocus(Qt.FocusReason.TabFocusReason)

    def group_in_view(self, titles: Sequence[str]) -> str:
        """Which of these groups, given in their order, is at the top of the view; the first where none has come to it."""
        top = self.verticalScrollBar().value()
        return next((title for title in reversed(titles) if title in self._heads and self._heads[title].y() <= top), titles[0])

    def _under(self, head: GroupHead) -> Iterator[QWidget]:
        """What stands between a head and the next one."""
        items = (self._column.itemAt(place) for place in range(self._column.indexOf(head) + 1, self._column.count()))
        for part in (item.widget() for item in items if item is not None):
            if isinstance(part, GroupHead):
                return
            if part is not None and not part.isHidden():
                yield part
