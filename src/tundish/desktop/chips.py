"""Rows of choices, one of them taken: filters, groups of a form, views of a page, the two floors."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from tundish.desktop import icons, look
from tundish.desktop.painted import Painted, panel, pen, width_of, write
from tundish.desktop.words import PushButton

_STEPS: Final = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice: what it is called, a count or note after it, and a state glyph with its colour and its word."""

    key: str
    text: str
    note: str = ""
    glyph: str = ""
    tone: str = "ink2"
    state: str = ""

    @property
    def spoken(self) -> str:
        """The choice as it is read out."""
        return ", ".join(part for part in (f"{self.text} {self.note}".strip(), self.state) if part)


class Chip(Painted):
    """One of a row of choices; the taken one has a tick, a wash and a heavy edge."""

    def __init__(self, choice: Choice, *, on_slate: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(choice.text, parent)
        self.setCheckable(True)
        self._on_slate = on_slate
        self.set_choice(choice)

    def set_choice(self, choice: Choice) -> None:
        """Show other words, count or state."""
        self.choice = choice
        self.setText(choice.text)
        self.setAccessibleName(choice.spoken)
        self.updateGeometry()
        self.update()

    def measure(self) -> QSize:
        """How large it wants to be."""
        px = look.now().px
        wide = px(9) * 2 + width_of(self.choice.text, "tableStrong")
        wide += px(18) if self.isChecked() or self._on_slate else 0
        wide += px(6) + width_of(self.choice.note, "note") if self.choice.note else 0
        wide += px(5) + px(16) if self.choice.glyph else 0
        return QSize(wide, look.now().px(34) if self._on_slate else look.now().row(30))

    def nextCheckState(self) -> None:
        """A choice is taken by pressing it and let go by taking another."""
        self.setChecked(True)

    def checkStateSet(self) -> None:
        super().checkStateSet()
        self.updateGeometry()

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        text, note = self._show_ground(painter)
        px = look.now().px
        left = px(9)
        if self.isChecked():
            icons.draw(painter, self._square(left - px(2), 14), "tick", "slate" if self._on_slate else "chalk")
            left += px(16)
        elif self._on_slate:
            left += px(10)
        wide = width_of(self.choice.text, "tableStrong")
        write(painter, QRect(left, 0, wide + 1, self.height()), self.choice.text, "tableStrong", text)
        left += wide + px(6)
        if self.choice.note:
            wide = width_of(self.choice.note, "note")
            write(painter, QRect(left, 0, wide + 1, self.height()), self.choice.note, "note", note)
            left += wide + px(5)
        if self.choice.glyph:
            icons.draw(painter, self._square(left, 16), self.choice.glyph, self.choice.tone)

    def _show_ground(self, painter: QPainter) -> tuple[str, str]:
        """Paint the ground; gives the colours of the text and of the note on it."""
        box = QRectF(self.rect())
        if self._on_slate:
            fill = look.colour("slateText") if self.isChecked() else None
            panel(painter, box, fill=fill, edge=pen("slateText" if self.underMouse() else "slateEdge"))
            return ("slate", "slate") if self.isChecked() else ("slateText", "slateText2")
        fill = look.colour("chalkWash" if self.isChecked() else "tray" if self.underMouse() else "plaster")
        panel(painter, box, fill=fill, edge=pen("chalk", 2) if self.isChecked() else pen("edge"))
        return "ink", "ink2"

    def _square(self, left: int, design: int) -> QRect:
        side = look.now().px(design)
        return QRect(left, (self.height() - side) // 2, side, side)


class ChipRow(QWidget):
    """A row of choices, in more lines where one is too narrow (never on slate); the arrow keys go along it."""

    chosen = Signal(str)

    def __init__(self, name: str, *, on_slate: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._on_slate = on_slate
        self._chips: list[Chip] = []
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def set_choices(self, choices: tuple[Choice, ...], taken: str) -> None:
        """Show these choices with one taken; chips are kept where they can be, so that focus stays."""
        while len(self._chips) > len(choices):
            self._chips.pop().deleteLater()
        for place, choice in enumerate(choices):
            if place == len(self._chips):
                self._add(choice)
            self._chips[place].set_choice(choice)
        self.take(taken)

    def take(self, key: str) -> None:
        """Mark one choice as taken, without a signal."""
        for chip in self._chips:
            chip.setChecked(chip.choice.key == key)
            chip.setFocusPolicy(Qt.FocusPolicy.StrongFocus if chip.isChecked() else Qt.FocusPolicy.ClickFocus)
        self._place()

    def taken(self) -> str:
        """The key of the choice taken, or nothing."""
        return next((chip.choice.key for chip in self._chips if chip.isChecked()), "")

    def make_room(self, beside: PushButton, width: int) -> None:
        """Let a button beside the row be its glyph where the row keeps to one line by it."""
        wide = self.sizeHint().width() + beside.whole_hint().width() + look.now().px(12)
        beside.shorten(short=not self.isHidden() and wide > width)

    def sizeHint(self) -> QSize:
        gap = look.now().px(6)
        wide = sum(chip.sizeHint().width() + gap for chip in self._chips) - gap
        return QSize(max(wide, 0), self.heightForWidth(wide))

    def minimumSizeHint(self) -> QSize:
        if self._on_slate:
            return self.sizeHint()
        widest = max((chip.sizeHint().width() for chip in self._chips), default=0)
        return QSize(widest, look.now().row(30))

    def heightForWidth(self, width: int) -> int:
        rects = self._rects(width)
        return rects[-1].bottom() + 1 if rects else 0

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._place()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _STEPS.get(Qt.Key(event.key()))
        if step is None or not self._chips:
            super().keyPressEvent(event)
            return
        place = next((i for i, chip in enumerate(self._chips) if chip.isChecked()), 0)
        after = self._chips[(place + step) % len(self._chips)]
        after.setFocus(Qt.FocusReason.TabFocusReason)
        after.click()

    def _add(self, choice: Choice) -> None:
        chip = Chip(choice, on_slate=self._on_slate, parent=self)
        chip.clicked.connect(self._pressed)
        chip.show()
        self._chips.append(chip)

    def _pressed(self) -> None:
        chip = self.sender()
        if isinstance(chip, Chip):
            self.take(chip.choice.key)
            self.chosen.emit(chip.choice.key)

    def _place(self) -> None:
        for chip, rect in zip(self._chips, self._rects(self.width()), strict=True):
            chip.setGeometry(rect)
        self.updateGeometry()

    def _rects(self, width: int) -> list[QRect]:
        gap, x, y = look.now().px(6), 0, 0
        rects: list[QRect] = []
        for chip in self._chips:
            size = chip.sizeHint()
            if x and x + size.width() > width:
                x, y = 0, y + size.height() + gap
            rects.append(QRect(x, y, size.width(), size.height()))
            x += size.width() + gap
        return rects
