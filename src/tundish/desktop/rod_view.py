"""The Rod beside the wall: every height to scale, from both floors, its labels spread so that none overlaps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish import measure
from tundish.desktop import icons, look
from tundish.desktop.job_line import FINISH
from tundish.desktop.painted import Painted, line, panel, pen, write
from tundish.documents.rod import RodMark

HEAD: Final = 26
STAFF: Final = 14
LEADER: Final = 20
PITCH: Final = 19
FIGURE: Final = 40
"""Sizes in pixels at 100 %: the head, the staff, the leaders, a row, a column of figures."""
WIDE: Final = 252
TICK_MM: Final = 100


@dataclass(frozen=True, slots=True)
class Height:
    """One row: its words, its height from the bare and the finished floor, its figure and the pieces it belongs to."""

    label: str
    bare: float
    finish: float
    tbc: bool
    key: str
    pieces: tuple[str, ...]
    client: bool


def heights(marks: Sequence[RodMark], finished_floor: float) -> tuple[Height, ...]:
    """The rows of a rod, top down: alike ones at one height are one row; alike ones at other heights are told apart by piece."""
    at: dict[tuple[str, float], list[RodMark]] = {}
    for mark in marks:
        at.setdefault((mark.label, mark.height.value), []).append(mark)
    labels = [label for label, _ in at]
    rows = []
    for (words, bare), alike in at.items():
        pieces = tuple(each.piece for each in alike if each.piece)
        apart = labels.count(words) > 1 and pieces
        shown = f"{alike[0].of} {words[:1].lower()}{words[1:]}" if apart else words
        tbc, client = any(each.height.tbc for each in alike), any(each.client for each in alike)
        rows.append(Height(shown, bare, bare - finished_floor, tbc, alike[0].key, pieces, client))
    return tuple(sorted(rows, key=lambda row: -row.bare))


def spread(wanted: Sequence[float], pitch: float, top: float, bottom: float) -> list[float]:
    """Places in the order of `wanted`, at least a pitch apart and within bounds, as near to what is wanted as can be."""
    groups: list[list[float]] = []
    for place, want in enumerate(wanted):
        groups.append([want - place * pitch])
        while len(groups) > 1 and _mean(groups[-2]) > _mean(groups[-1]):
            groups[-2:] = [groups[-2] + groups[-1]]
    most = bottom - max(len(wanted) - 1, 0) * pitch
    level = [max(min(_mean(group), most), top) for group in groups for _ in group]
    return [each + place * pitch for place, each in enumerate(level)]


class Row(Painted):
    """One height of the rod."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("", parent)
        self.height_shown: Height | None = None
        self._floor, self._chosen, self._asked = "", False, False

    def show_height(self, height: Height, floor: str, *, chosen: bool, asked: bool) -> None:
        """Show a height; `chosen` says it is of the chosen piece, `asked` that Where from tells of it."""
        self.height_shown, self._floor, self._chosen, self._asked = height, floor, chosen, asked
        bare, finish = measure.show_length(height.bare), measure.show_length(height.finish)
        spoken = f"{height.label}, {bare} millimetres above bare floor, {finish} above finished floor"
        self.setAccessibleName(f"{spoken}. To be confirmed." if height.tbc else spoken)
        self.update()

    def measure(self) -> QSize:
        """How large it wants to be."""
        px = look.now().px
        return QSize(px(WIDE - STAFF - LEADER), px(PITCH))

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        height = self.height_shown
        if height is None:
            return
        px, high = look.now().px, self.height()
        if self._asked or self.underMouse():
            edge = pen("chalk") if self._asked else None
            panel(painter, QRectF(self.rect()), fill=look.colour("chalkWash" if self._asked else "tray"), edge=edge, radius=3)
        bold = self._floor == FINISH
        tone = "chalk" if self._chosen else "tbc" if height.tbc else "ink"
        columns = ((height.bare, not bold), (height.finish, bold))
        for place, (value, strong) in enumerate(columns):
            room = QRect(px(place * (FIGURE + 2)), 0, px(FIGURE), high)
            write(painter, room, measure.show_length(value), "noteStrong" if strong else "note", "ink" if strong else "ink2", right=True)
        left, mark = px(2 * FIGURE + 10), px(11)
        room = QRect(left, 0, self.width() - left - (mark + px(5) if height.tbc else px(2)), high)
        write(painter, room, height.label, "noteStrong" if self._chosen else "note", tone)
        if height.tbc:
            icons.draw(painter, QRect(self.width() - mark - px(3), (high - mark) // 2, mark, mark), "half", "tbc")


class Rod(QWidget):
    """The staff with its rows. `align` ties it to the drawing beside it."""

    figure_asked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Rod")
        policy = QSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        policy.setRetainSizeWhenHidden(True)  # what stands beneath it is as wide as it
        self.setSizePolicy(policy)
        self._heights: tuple[Height, ...] = ()
        self._floor, self._piece, self._asked = "", "", ""
        self._base, self._scale, self._top_mm = 0.0, 0.0, 0.0
        self._rows: list[Row] = []
        self._left_out = 0

    def show_heights(self, rows: tuple[Height, ...], floor: str, piece: str, asked: str) -> None:
        """Show heights; the floor chosen is bold, the rows of a piece are in chalk, the figure asked about is picked out."""
        if (rows, floor, piece, asked) != (self._heights, self._floor, self._piece, self._asked):
            self._heights, self._floor, self._piece, self._asked = rows, floor, piece, asked
            self._place()

    def align(self, base: float, scale: float, top_mm: float) -> None:
        """Where the bare floor is in this widget, pixels a millimetre, and how high the wall is drawn."""
        if (base, scale, top_mm) != (self._base, self._scale, self._top_mm):
            self._base, self._scale, self._top_mm = base, scale, top_mm
            self._place()

    def rows(self) -> list[Row]:
        """The rows that are seen, top down."""
        return [row for row in self._rows if not row.isHidden()]

    def sizeHint(self) -> QSize:
        px = look.now().px
        return QSize(px(WIDE), px(HEAD + 8 * PITCH))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        rows, step = self.rows(), {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()), 0)
        place = next((place for place, row in enumerate(rows) if row.hasFocus()), None)
        if step and place is not None and 0 <= place + step < len(rows):
            self._enter(rows[place + step])
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        px, left = look.now().px, look.now().px(STAFF + LEADER)
        bold = self._floor == FINISH
        write(painter, QRect(0, 0, px(40), px(HEAD)), "Rod", "tableStrong")
        for place, (words, strong) in enumerate((("Bare", not bold), ("Finish", bold))):
            room = QRect(left + px(place * (FIGURE + 2)), 0, px(FIGURE), px(HEAD))
            write(painter, room, words, "noteStrong" if strong else "note", "ink" if strong else "ink2", right=True)
        if self._left_out:
            room = QRect(left, self.height() - px(PITCH), self.width() - left, px(PITCH))
            write(painter, room, f"{self._left_out} more: choose a piece", "note", "ink2")
        if self._scale:
            self._staff(painter)
            self._leaders(painter)

    def _staff(self, painter: QPainter) -> None:
        px = look.now().px
        top = max(self._at(self._top_mm), float(px(HEAD)))
        bottom = min(self._base, float(self.height()))
        if bottom <= top:
            return
        staff = QRectF(1, top, px(STAFF) - 2, bottom - top)
        panel(painter, staff, fill=look.colour("floorWash"), edge=pen("edge"), radius=1)
        for height in range(0, int(self._top_mm), TICK_MM):
            y = self._at(height)
            if top < y < bottom:
                long = height % (5 * TICK_MM) == 0
                line(painter, QPointF(1, y), QPointF(px(STAFF * 0.7 if long else STAFF * 0.4), y), "edge")

    def _leaders(self, painter: QPainter) -> None:
        px = look.now().px
        for row in self.rows():
            height = row.height_shown
            y = self._at(height.bare) if height else -1.0
            if height is None or not px(HEAD) - 1 <= y <= self.height():
                continue
            tone = "chalk" if self._piece in height.pieces else "edge"
            there = row.y() + row.height() / 2
            bend, end = px(STAFF + 7), px(STAFF + LEADER - 4)
            line(painter, QPointF(px(STAFF) - 4, y), QPointF(bend, y), tone)
            line(painter, QPointF(bend, y), QPointF(end, there), tone)

    def _at(self, height: float) -> float:
        return self._base - height * self._scale

    def _place(self) -> None:
        """Put a row on every height there is room for; those of the room, of the chosen piece and the client's come first."""
        px = look.now().px
        pitch, top, bottom = px(PITCH), px(HEAD), self.height() - px(PITCH)
        room = max(int((bottom - top) / pitch) + 1, 1)
        if len(self._heights) > room:
            room = max(room - 1, 1)  # for the line that says so
            bottom -= pitch
        kept = set(sorted(self._heights, key=self._rank)[:room])
        shown = [height for height in self._heights if height in kept]
        self._left_out = len(self._heights) - len(shown)
        places = spread([self._at(height.bare) - pitch / 2 for height in shown], pitch, top, bottom)
        self._make(len(shown))
        left = px(STAFF + LEADER)
        for row, height, place in zip(self._rows, shown, places, strict=False):
            asked = bool(self._asked) and height.key == self._asked
            row.show_height(height, self._floor, chosen=self._piece in height.pieces, asked=asked)
            row.setGeometry(left, round(place), self.width() - left, pitch)
        self.update()

    def _rank(self, height: Height) -> tuple[bool, bool]:
        return (bool(height.pieces) and self._piece not in height.pieces, not height.client)

    def _make(self, wanted: int) -> None:
        while len(self._rows) < wanted:
            row = Row(self)
            row.setFocusPolicy(Qt.FocusPolicy.ClickFocus if self._rows else Qt.FocusPolicy.StrongFocus)
            row.clicked.connect(self._pressed)
            self._rows.append(row)
        for place, row in enumerate(self._rows):
            row.setVisible(place < wanted)

    def _pressed(self) -> None:
        row = self.sender()
        if isinstance(row, Row) and row.height_shown is not None:
            self.figure_asked.emit(row.height_shown.key)

    def _enter(self, row: Row) -> None:
        """Put the keyboard on a row; Tab comes back to it."""
        for each in self._rows:
            each.setFocusPolicy(Qt.FocusPolicy.StrongFocus if each is row else Qt.FocusPolicy.ClickFocus)
        row.setFocus(Qt.FocusReason.TabFocusReason)


def _mean(group: Sequence[float]) -> float:
    return sum(group) / len(group)
