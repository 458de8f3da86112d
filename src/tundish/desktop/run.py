"""The Run: the pages as joints on a pipe, each with its state in words, and the Before closing card."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QWidget

from tundish.desktop import icons, look
from tundish.desktop.painted import Painted, line, panel, pen, width_of, write


@dataclass(frozen=True, slots=True)
class Joint:
    """A page of the job as it stands in the Run."""

    key: str
    title: str


PAGES: Final = (
    Joint("survey", "Survey"),
    Joint("setting_out", "Setting out"),
    Joint("checks", "Checks"),
    Joint("materials", "Materials"),
    Joint("cutting", "Cutting"),
    Joint("ordering", "Ordering"),
    Joint("pricing", "Pricing"),
    Joint("paper", "Paper"),
)
"""The eight pages, in the order of the pipe; any may be opened at any time."""
BOOKS: Final = (("stock", "Stock", "stock"), ("rates", "Rates and rules", "rules"), ("settings", "Settings", "settings"))
"""The pages outside a job: key, title, glyph."""
CLOSING: Final = "closing"
JOBS: Final = "jobs"
_HIGH: Final = 38
_LEFT: Final = 25
"""Middle of the pipe from the left edge, design pixels."""
_TITLE: Final = 42
"""Where the name of a page begins."""


class Entry(Painted):
    """What all entries of the Run share: full width, a chalk bar and bold words when it is the page shown."""

    def __init__(self, key: str, title: str, high: int, parent: QWidget) -> None:
        super().__init__(title, parent)
        self.key, self.title, self.high = key, title, high
        self.setCheckable(True)
        self.setAutoExclusive(False)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)

    def measure(self) -> QSize:
        """How large it wants to be."""
        return QSize(look.now().px(172), look.now().row(self.high))

    def nextCheckState(self) -> None:
        """Which page is shown is the window's to say, not the press's."""

    def show_ground(self, painter: QPainter) -> None:
        """Paint the ground of the page shown, or of the one under the pointer."""
        if self.isChecked():
            painter.fillRect(self.rect(), look.colour("sheet"))
            painter.fillRect(QRect(0, 0, 4, self.height()), look.colour("chalk"))
        elif self.underMouse() and self.isEnabled():
            painter.fillRect(self.rect(), look.colour("plaster"))


class JointEntry(Entry):
    """A page: its joint on the pipe, its name, and its state at the right as a word or a word with a glyph."""

    def __init__(self, joint: Joint, place: int, parent: QWidget) -> None:
        super().__init__(joint.key, joint.title, _HIGH, parent)
        self._place = place
        self._state, self._tone, self._glyph = "", "ink2", ""
        self.open_job = False
        self.setToolTip(f"Alt+{place}")
        self.say()

    def set_state(self, text: str, tone: str, glyph: str) -> None:
        """Show a state; nothing for a page with nothing to say."""
        self._state, self._tone, self._glyph = text, tone, glyph
        self.say()
        self.update()

    def set_open(self, *, open_job: bool) -> None:
        """Rings are dashed while no job is open."""
        self.open_job = open_job
        self.setEnabled(open_job)
        self.update()

    def say(self) -> None:
        """Keep the spoken name up to date."""
        words = {"warn": "to look at", "tick": "all pass", "fails": "failing"}.get(self._glyph, "")
        state = f"{self._state} {words}".strip()
        self.setAccessibleName(f"{self.title}, page {self._place} of {len(PAGES)}" + (f", {state}" if state else ""))

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        self.show_ground(painter)
        px = look.now().px
        self._show_pipe(painter)
        self._show_joint(painter)
        right = self.width() - px(10)
        if self._glyph:
            side = px(16)
            icons.draw(painter, QRect(right - side, (self.height() - side) // 2, side, side), self._glyph, self._tone)
            right -= side + px(6)
        left = px(_TITLE)
        role, tone = ("bodyStrong", "ink") if self.isChecked() else ("body", "ink" if self.open_job else "ink2")
        wide = width_of(self._state, "noteStrong") + px(4) if self._state else 0
        # Where a glyph says it too, words that leave no room for the page's name are left to it.
        if self._state and not (self._glyph and right - wide - left < width_of(self.title, "bodyStrong")):
            right -= wide
            write(painter, QRect(right + px(4), 0, wide + 1 - px(4), self.height()), self._state, "noteStrong", self._tone, right=True)
        write(painter, QRect(left, 0, right - left, self.height()), self.title, role, tone)

    def _show_pipe(self, painter: QPainter) -> None:
        middle = look.now().px(_LEFT)
        top = self.height() / 2 if self._place == 1 and not self.open_job else 0.0
        bottom = self.height() / 2 if self._place == len(PAGES) else float(self.height())
        for x in (middle - 1.5, middle + 1.5):
            line(painter, QPointF(x, top), QPointF(x, bottom), "edge" if self.open_job else "hairline")

    def _show_joint(self, painter: QPainter) -> None:
        px = look.now().px
        radius = px(10.5)
        box = QRectF(px(_LEFT) - radius, self.height() / 2 - radius, radius * 2, radius * 2)
        chosen = self.isChecked()
        rim = pen("chalk" if chosen else "edge", 1.5)
        if not self.open_job:
            rim.setDashPattern([2, 1.6])
        ground = "chalk" if chosen else "plaster" if self.open_job else "tray"
        painter.setPen(rim)
        painter.setBrush(look.colour(ground))
        painter.drawEllipse(box)
        painter.setPen(look.colour("onChalk" if chosen else "ink" if self.open_job else "ink2"))
        painter.setFont(look.font("noteStrong"))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(self._place))


class BookEntry(Entry):
    """A page outside a job, with a glyph before its name."""

    def __init__(self, key: str, title: str, glyph: str, parent: QWidget) -> None:
        super().__init__(key, title, 32, parent)
        self._glyph = glyph

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        self.show_ground(painter)
        px = look.now().px
        side = px(17)
        icons.draw(painter, QRect(px(_LEFT) - side // 2, (self.height() - side) // 2, side, side), self._glyph, "ink2")
        role = "bodyStrong" if self.isChecked() else "body"
        write(painter, QRect(px(_TITLE), 0, self.width() - px(_TITLE + 6), self.height()), self.title, role)


class ClosingCard(Entry):
    """What is still open before the wall is closed: in words, as one box a decision, and by when."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(CLOSING, "Before closing", 96, parent)
        self._text, self._due = "with a job open", ""
        self._boxes: tuple[str, ...] = ()
        self.setToolTip("Alt+9")
        self.setEnabled(False)

    def set_closing(self, text: str, boxes: tuple[str, ...], due: str) -> None:
        """Show the count in words, the state of every decision ("settled", "asked", "open", "not needed") and the day."""
        self._text, self._boxes, self._due = text, boxes, due
        self.setEnabled(bool(boxes))
        self.setAccessibleName(", ".join(part for part in ("Before closing", text, due) if part))
        self.updateGeometry()
        self.update()

    def measure(self) -> QSize:
        """How large it wants to be."""
        px = look.now().px
        return QSize(px(156), px(96 if self._boxes else 58))

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        px = look.now().px
        open_job = bool(self._boxes)
        edge = pen("chalk", 2) if self.isChecked() else pen("edge" if open_job else "hairline")
        ground = "sheet" if open_job else "tray"
        if open_job and self.underMouse() and not self.isChecked():
            ground = "plaster"
        panel(painter, QRectF(self.rect()), fill=look.colour(ground), edge=edge, radius=6)
        icons.draw(painter, QRect(px(10), px(10), px(18), px(18)), "closing", "ink" if open_job else "ink2")
        wide = self.width() - px(18)
        role, tone = ("bodyStrong", "ink") if open_job else ("body", "ink2")
        write(painter, QRect(px(34), px(8), wide - px(24), px(22)), self.title, role, tone)
        write(painter, QRect(px(10), px(33), wide, px(20)), self._text, "table", "ink" if open_job else "ink2")
        if self.height() >= px(70):
            self._show_boxes(painter, px(10), px(57), self.width() - px(22))
        if self.height() >= px(90):
            write(painter, QRect(px(10), px(72), wide, px(18)), self._due, "note", "ink2")

    def _show_boxes(self, painter: QPainter, left: int, top: int, room: int) -> None:
        if not self._boxes:
            return
        step = min(look.now().px(13.7), room / len(self._boxes))
        for place, state in enumerate(self._boxes):
            box = QRectF(left + place * step, top, step - look.now().px(2.5), look.now().px(8.5))
            panel(painter, box, fill=look.colour("settled") if state == "settled" else None, edge=_rim(state), radius=2.5)
            if state == "asked":
                half = QRectF(box.x() + 1, box.y() + 1, box.width() / 2 - 1, box.height() - 2)
                painter.fillRect(half, look.colour("tbc"))
            if state == "not needed":
                middle = box.center().y()
                line(painter, QPointF(box.x() + 3, middle), QPointF(box.right() - 3, middle), "ink2")


class Run(QWidget):
    """The list of pages down the left side."""

    page_asked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("The Run, pages of the job")
        self._joints = [JointEntry(joint, place, self) for place, joint in enumerate(PAGES, 1)]
        self._closing = ClosingCard(self)
        self._books = [BookEntry(*book, self) for book in BOOKS]
        self._entries: tuple[Entry, ...] = (*self._joints, self._closing, *self._books)
        for entry in self._entries:
            entry.clicked.connect(self._pressed)
        self.set_job_open(open_job=False)

    def set_job_open(self, *, open_job: bool) -> None:
        """Full joints with a job open, dashed and dim ones without."""
        for joint in self._joints:
            joint.set_open(open_job=open_job)
        if not open_job:
            self._closing.set_closing("with a job open", (), "")

    def set_current(self, key: str) -> None:
        """Mark the page shown."""
        for entry in self._entries:
            entry.setChecked(entry.key == key)

    def set_state(self, key: str, text: str, tone: str = "ink2", glyph: str = "") -> None:
        """A page's state: a short text ("2 TBC"), its colour, and a glyph that says it without colour ("warn", "tick", "fails")."""
        for joint in self._joints:
            if joint.key == key:
                joint.set_state(text, tone, glyph)

    def set_closing(self, text: str, boxes: tuple[str, ...], due: str) -> None:
        """Fill the Before closing card: words, one state per decision, and the day of boarding."""
        self._closing.set_closing(text, boxes, due)
        self._place()

    def entry(self, key: str) -> Entry:
        """The entry of a page."""
        return next(entry for entry in self._entries if entry.key == key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()), 0)
        reachable = [entry for entry in self._entries if entry.isEnabled()]
        focused = self.focusWidget()
        if not step or focused not in reachable:
            super().keyPressEvent(event)
            return
        reachable[(reachable.index(focused) + step) % len(reachable)].setFocus(Qt.FocusReason.TabFocusReason)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("tray"))
        painter.setPen(QPen(look.colour("hairline"), 1))
        painter.drawLine(self.width() - 1, 0, self.width() - 1, self.height())
        rule = self._books[0].y() - look.now().px(6)
        painter.drawLine(look.now().px(12), rule, self.width() - look.now().px(12), rule)

    def _pressed(self) -> None:
        entry = self.sender()
        if isinstance(entry, Entry):
            self.page_asked.emit(entry.key)

    def _place(self) -> None:
        """From the top: the pipe and the card; from the foot: the books. Short windows take height from the joints and books."""
        px = look.now().px
        card = self._closing.sizeHint().height()
        book = self._books[0].sizeHint().height()
        joint = self._joints[0].sizeHint().height()
        room = self.height() - px(10) - card
        if room < joint * len(self._joints) + book * len(self._books) + px(42):
            book = min(book, px(25))
            joint = max(min(joint, (room - book * len(self._books) - px(24)) // len(self._joints)), px(20))
            spare = self.height() - px(34) - joint * len(self._joints) - book * len(self._books)
            card = max(min(card, spare), px(58))
            room = self.height() - px(10) - card
        top = px(10)
        for entry in self._joints:
            entry.setGeometry(0, top, self.width(), joint)
            top += joint
        self._closing.setGeometry(px(8), top + min(px(14), (room - joint * len(self._joints)) // 8), self.width() - px(16), card)
        top = self.height() - px(8) - book * len(self._books)
        for page in self._books:
            page.setGeometry(0, top, self.width(), book)
            top += book


def _rim(state: str) -> QPen:
    return pen({"settled": "settled", "asked": "tbc"}.get(state, "edge"))
