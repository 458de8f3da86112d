"""Where from: the chosen figure, what it adds up from, what it moves; or the page's own short help."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QApplication, QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from tundish.desktop import look
from tundish.desktop.own_box import TypeOver
from tundish.desktop.painted import ENTER, Glyph, IconButton
from tundish.desktop.receipt import Action, ReceiptLine, Section, WhereFromView
from tundish.desktop.receipt_rows import Heading, LineRow
from tundish.desktop.words import button, clear_out, label, tag

PUT_BACK: Final = "back:"
"""What the id of the button begins with that Del presses: the worked-out figure comes back."""


LONG: Final = 30
"""Words of a button longer than this have a row of their own, and are folded to the column's width."""
TOGETHER: Final = 26
"""Letters that the buttons of one row have together, so that none is cut off."""
BESIDE: Final = 84
"""What of the column's width a button takes up besides its words."""


def folded(words: str, metrics: QFontMetrics, room: int) -> str:
    """Words in as many lines as keep each to the room that there is, in pixels; one word that is wider stays whole."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and metrics.horizontalAdvance(longer) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return "\n".join(lines)


class Scroll(QScrollArea):
    """Leaves the arrow keys to the column: they go from link to link, and what has the keyboard is brought into sight."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.ignore()


class WhereFrom(QWidget):
    """The column at the right. It asks for other figures by id and never works anything out."""

    link_asked = Signal(str)
    back_asked = Signal()
    button = Signal(str)
    leave_asked = Signal()
    """Esc: the keyboard goes back to the figure."""
    fold_asked = Signal()
    typed = Signal(str, str)
    """A figure by its id, and what the trader typed in place of it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Where from")
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self._shown: WhereFromView | tuple[str, tuple[str, ...]] | None = None
        self._actions: list[QAbstractButton] = []
        self._scroll = Scroll()
        self._scroll.setWidgetResizable(True)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        body = QWidget()
        body.setProperty("kind", "clear")
        inside = QVBoxLayout(body)
        inside.setContentsMargins(4, 0, 4, 0)
        inside.setSpacing(0)
        self._parts, self._late = QVBoxLayout(), QVBoxLayout()
        for each in (self._parts, self._late):
            each.setSpacing(0)
            inside.addLayout(each)
        inside.addStretch(1)
        self._scroll.setWidget(body)
        self._own = TypeOver()
        self._own.given.connect(self.typed)
        self._own.left.connect(self.focus_first)
        self._feet = QVBoxLayout()
        self._feet.setSpacing(8)
        self._fold = IconButton("cross", "Fold Where from away; F9 opens it", small=True)
        self._fold.clicked.connect(self.fold_asked)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 7, 12, 10)
        column.setSpacing(6)
        column.addLayout(self._head())
        column.addWidget(self._scroll, 1)
        column.addWidget(self._own)
        column.addLayout(self._feet)

    def show_figure(self, view: WhereFromView) -> None:
        """Show a figure and its reason."""
        if view == self._shown:
            return
        self._shown = view
        self._own.belongs_to(view.own)
        parts: list[QWidget] = [*_figure(view), *self._rows(view.lines)]
        if view.note:
            parts.append(_boxed(view.note, view.note_glyph, "note"))
        for section in view.sections:
            parts += [_section_head(section), *self._rows(section.lines)]
        if view.warning:
            parts.append(_boxed(view.warning, view.warning_glyph, "warning"))
        self._show(parts, view.actions)

    def show_help(self, title: str, sentences: Sequence[str]) -> None:
        """Show a page's own short help, one sentence a line."""
        shown = (title, tuple(sentences))
        if shown == self._shown:
            return
        self._shown = shown
        self._own.belongs_to(None)
        self.show_late(None)
        words = [label(sentence, "table", "ink2", wrap=True) for sentence in sentences]
        for each in words:
            each.setContentsMargins(0, 6, 0, 0)
        self._show([label(title, "section", wrap=True), *words], ())

    def show_late(self, section: Section | None) -> None:
        """Show a part below all others, whose lines came later; nothing of what is read or has the keyboard moves."""
        _empty(self._late)
        if section is not None:
            for part in (_section_head(section), *self._rows(section.lines)):
                self._late.addWidget(part)
                part.show()

    def type_own(self) -> None:
        """Open the box for a figure of the trader's own, where this figure can be one."""
        self._own.ask()

    def refuse(self, words: str, problem: str) -> None:
        """Say what is wrong with a figure that was typed; it stays in its box."""
        self._own.refuse(words, problem)

    def focus_first(self) -> None:
        """Take the keyboard: to the first link, else the first button, else the column itself."""
        places = [*self.findChildren(LineRow), *self._actions, self]
        first = next(each for each in places if each is self or each.focusPolicy() & Qt.FocusPolicy.TabFocus)
        first.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        focused = QApplication.focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.leave_asked.emit()
        elif event.key() == Qt.Key.Key_Backspace:
            self.back_asked.emit()
        elif event.key() == Qt.Key.Key_Delete:
            self._press(PUT_BACK)
        elif event.key() in {Qt.Key.Key_Up, Qt.Key.Key_Down}:
            self.focusNextPrevChild(event.key() == Qt.Key.Key_Down)
        elif event.key() in ENTER and isinstance(focused, QAbstractButton):
            focused.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), look.colour("sheet"))
        painter.setPen(look.colour("hairline"))
        painter.drawLine(0, 0, 0, self.height())

    def _head(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(4, 0, 4, 0)
        row.setSpacing(6)
        row.addWidget(Glyph("tundish", "chalk", 14))
        row.addWidget(label("Where from", "noteStrong", "chalk"))
        row.addStretch(1)
        row.addWidget(self._fold)
        return row

    def _show(self, parts: Iterable[QWidget], actions: Sequence[Action]) -> None:
        focused = QApplication.focusWidget()
        had_keyboard = focused is not None and self.isAncestorOf(focused) and not self._own.isAncestorOf(focused)
        _empty(self._parts)
        for part in parts:
            self._parts.addWidget(part)
            part.show()
        self._show_actions(actions)
        if had_keyboard:
            self.focus_first()

    def _rows(self, lines: Iterable[ReceiptLine]) -> list[LineRow]:
        rows = [LineRow(each) for each in lines]
        for row in rows:
            if row.shown.link:
                row.clicked.connect(self._follow)
        return rows

    def _follow(self) -> None:
        row = self.sender()
        if isinstance(row, LineRow):
            self.link_asked.emit(row.shown.link)

    def _show_actions(self, actions: Sequence[Action]) -> None:
        clear_out(self._feet)
        self._actions = []
        short, long = ([each for each in actions if (len(each.text) > LONG) is wordy] for wordy in (False, True))
        for together in (*(_rows([each for each in short if each.main is main]) for main in (True, False)), [[each] for each in long]):
            for side_by_side in together:
                self._feet.addWidget(self._action_row(side_by_side))

    def _action_row(self, actions: Iterable[Action]) -> QWidget:
        made_row = QWidget()
        row = QHBoxLayout(made_row)
        row.setContentsMargins(4, 0, 4, 0)
        row.setSpacing(8)
        for action in actions:
            made = button(action.text, action.glyph, main=action.main)
            made.setObjectName(action.id)
            made.clicked.connect(self._act)
            row.addWidget(made, len(action.text))
            if len(action.text) > LONG:
                made.setText(folded(action.text, made.fontMetrics(), self.width() - look.now().px(BESIDE)))
            self._actions.append(made)
        return made_row

    def _press(self, act: str) -> None:
        """Press the button of an act, where there is one."""
        found = next((each for each in self._actions if each.objectName().startswith(act)), None)
        if found is not None:
            found.click()

    def _act(self) -> None:
        self.button.emit(self.sender().objectName())


def _rows(actions: Sequence[Action]) -> list[list[Action]]:
    """As many to a row as are read whole side by side."""
    rows: list[list[Action]] = []
    for each in actions:
        if rows and sum(len(one.text) for one in rows[-1]) + len(each.text) <= TOGETHER:
            rows[-1].append(each)
        else:
            rows.append([each])
    return rows


def _empty(column: QVBoxLayout) -> None:
    """Let the parts of a column go, a little later: at once would pull them from under the focus that is just leaving them."""
    while (item := column.takeAt(0)) is not None:
        if (part := item.widget()) is not None:
            part.hide()
            part.setParent(None)
            part.deleteLater()


def _figure(view: WhereFromView) -> Iterable[QWidget]:
    """The title, the figure large with its unit and tag, and the floor it is from."""
    if view.came_from:
        yield label(f"from: {view.came_from}", "note", "chalk", wrap=True)
    yield label(view.title, "section", wrap=True)
    if view.under_title:
        yield label(view.under_title, "note", "ink2", wrap=True)
    if view.value:
        large = QWidget()
        row = QHBoxLayout(large)
        row.setContentsMargins(0, 4, 0, 0)
        row.addWidget(Heading(view), 1)
        if view.tag:
            row.addWidget(tag(view.tag, view.tag_tone))
        yield large
    if view.floor:
        floor = label(view.floor, "table", "ink2", wrap=True)
        floor.setContentsMargins(0, 0, 0, 6)
        yield floor


def _section_head(section: Section) -> QWidget:
    made = QFrame()
    made.setProperty("kind", "sectionHead")
    column = QVBoxLayout(made)
    column.setContentsMargins(0, 7, 0, 2)
    column.addWidget(label(section.title, "tableStrong", wrap=True))
    return made


def _boxed(words: str, glyph: str, kind: str) -> QWidget:
    made = QFrame()
    made.setProperty("kind", kind)
    row = QHBoxLayout(made)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(8)
    row.addWidget(Glyph(glyph, "ink2" if kind == "note" else "tbc", 14), 0, Qt.AlignmentFlag.AlignTop)
    row.addWidget(label(words, "table", wrap=True), 1)
    return made
