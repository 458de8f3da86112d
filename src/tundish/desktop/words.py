"""Labels and push buttons in the program's text roles."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QKeyEvent, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLayout, QPushButton, QSizePolicy, QStyleOptionButton, QWidget

from tundish.desktop import icons, look
from tundish.desktop.painted import ENTER, fitted, panel, pen, width_of

_GLYPH_EDGE: Final = 8
"""Beside the glyph of a button without words, pixels at 100 %."""
_LEAST_WORDS: Final = 40
"""Words with less room than this are left to the tool tip, pixels at 100 %: a letter and … say nothing."""


def label(text: str, role: str = "body", tone: str = "", *, wrap: bool = False) -> QLabel:
    """A label in a text role and a token's colour; plain text, never markup."""
    made = QLabel(text)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setProperty("role", role)
    if tone:
        made.setProperty("tone", tone)
    made.setWordWrap(wrap)
    return made


def tag(text: str, tone: str = "tbc") -> Tag:
    """A small tag that says a state: dashed for what is to be confirmed, solid for settled and fails."""
    return Tag(text, tone)


def button(text: str, glyph: str = "", *, main: bool = False, once: bool = False) -> PushButton:
    """A push button with a glyph before its words; the main one of a page is filled. `once`: a double click is one press."""
    made = PushButton(text)
    made.once = once
    made.setAccessibleName(text)
    if main:
        made.setProperty("kind", "main")
    if glyph:
        made.setIcon(icons.icon(glyph, "onChalk" if main else "ink"))
        made.setIconSize(_glyph_room())
    return made


def clear_out(layout: QLayout) -> None:
    """Let everything in a layout go, a little later: what was pressed may be among it."""
    while (item := layout.takeAt(0)) is not None:
        if (part := item.widget()) is not None:
            part.hide()
            part.deleteLater()


def in_row(*widgets: QWidget) -> QWidget:
    """Words with what can be done about them at their right, or buttons alone at the left."""
    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(0, 2, 0, 2)
    words = isinstance(widgets[0], QLabel)
    for place, widget in enumerate(widgets):
        row.addWidget(widget, 1 if words and place == 0 else 0, Qt.AlignmentFlag.AlignVCenter)
    if not words:
        row.addStretch(1)
    return made


def named(words: str, part: QWidget) -> QWidget:
    """A box with its words before it."""
    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(0, 2, 12, 2)
    row.addWidget(label(words, "table"))
    row.addWidget(part)
    return made


class PushButton(QPushButton):
    """A push button that Enter presses as well as Space, and whose glyph grows with the text. Where there is no room it is its glyph."""

    _short = False
    once = False
    """Whether the second press of a double click is left out: what makes a paper makes one."""

    def shorten(self, *, short: bool) -> None:
        """Show the glyph alone, the words in the tool tip; or all again."""
        if short != self._short:
            self._short = short
            self.setToolTip(self.text() if short else "")
            self.updateGeometry()

    def whole_hint(self) -> QSize:
        """How large it wants to be with its words."""
        return super().sizeHint()

    def beside_glyph(self) -> int:
        """What stands beside the glyph besides words."""
        return 2 * look.now().px(_GLYPH_EDGE)

    def sizeHint(self) -> QSize:
        whole = self.whole_hint()
        return QSize(self.iconSize().width() + self.beside_glyph(), whole.height()) if self._short else whole

    def initStyleOption(self, option: QStyleOptionButton) -> None:
        super().initStyleOption(option)
        if self._short:
            option.text = ""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ENTER:
            self.click()
        else:
            super().keyPressEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if not self.once:
            super().mouseDoubleClickEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self.setIconSize(_glyph_room())


def retone(widget: QWidget, name: str, value: str) -> None:
    """Give a widget another value of a property that the style sheet looks at, and style it again."""
    if (widget.property(name) or "") != value:
        widget.setProperty(name, value)
        widget.style().unpolish(widget)
        widget.style().polish(widget)


class Tag(QLabel):
    """A state in a word on its wash; its dashed edge means "to be confirmed", so that colour alone says nothing."""

    def __init__(self, text: str, tone: str, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self._tone = tone
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def set_state(self, text: str, tone: str) -> None:
        """Say another state."""
        self._tone = tone
        self.setText(text)

    def sizeHint(self) -> QSize:
        px = look.now().px
        return QSize(width_of(self.text(), "noteStrong") + px(16), px(20))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        edge = pen(self._tone, dashed=self._tone == "tbc")
        panel(painter, QRectF(self.rect()), fill=look.colour(f"{self._tone}Wash"), edge=edge)
        painter.setFont(look.font("noteStrong"))
        painter.setPen(look.colour(self._tone))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())


class CutLabel(QLabel):
    """A label that may be made narrower than its text: it goes on in `lines` lines, or is cut with … and whole in the tool tip."""

    def __init__(self, role: str, tone: str, text: str = "", *, lines: int = 1, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self._lines = lines
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setProperty("role", role)
        self.setProperty("tone", tone)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Preferred)

    def minimumSizeHint(self) -> QSize:
        return QSize(look.now().px(24), super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        shown = self.text() if self._wraps() else fitted(self.text(), self.font(), self.width())
        self.setToolTip(self.text() if shown != self.text() else "")
        if self.width() < look.now().px(_LEAST_WORDS):
            return
        painter = QPainter(self)
        painter.setFont(self.font())
        painter.setPen(self.palette().color(self.foregroundRole()))
        wrap = Qt.TextFlag.TextWordWrap if self._wraps() else Qt.TextFlag.TextSingleLine
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft | wrap, shown)

    def _wraps(self) -> bool:
        """Whether the text fits in more lines than one, and needs them."""
        metrics = QFontMetrics(self.font())
        if self._lines == 1 or metrics.horizontalAdvance(self.text()) <= self.width():
            return False
        room = metrics.boundingRect(0, 0, self.width(), 10_000, Qt.TextFlag.TextWordWrap, self.text())
        return room.width() <= self.width() and room.height() <= min(self._lines * metrics.lineSpacing(), self.height())


def _glyph_room() -> QSize:
    """Room for a glyph and the gap after it."""
    return QSize(look.now().px(24), look.now().px(18))
