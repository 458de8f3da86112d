"""The base of every page: its title, the question it answers, its tools in one row, then one part that stretches."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import pairwise

from PySide6.QtCore import QEvent, Signal, SignalInstance
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from tundish.desktop import look
from tundish.desktop.stops import first_stop, stops
from tundish.desktop.words import CutLabel, PushButton, label

_HEAD_EDGES = 60
"""What stands in the head besides title and tools: edges, and a little between them."""


class Page(QWidget):
    """A page. It asks where a figure is from by the figure's id, and asks the window for other pages by key."""

    figure_asked = Signal(str)
    page_asked = Signal(str)
    help_sentences: tuple[str, ...] = ()
    """Shown in Where from while there is no figure to ask about."""

    def __init__(self, title: str, question: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.title = title
        self.setAccessibleName(title)
        self._ordered = False
        self._tool_list: list[QWidget] = []
        self._tools = QHBoxLayout()
        self._tools.setSpacing(6)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(8, 0, 8, 4)
        self._column.setSpacing(8)
        self._title = label(title, "title")
        self._column.addLayout(self._head(question))
        self._body: QWidget | None = None
        self._rows: list[QWidget] = []
        self._late: list[Callable[[], None]] = []

    def add_tool(self, tool: QWidget) -> None:
        """Add a control at the right of the head row."""
        self._tools.addWidget(tool)
        self._tool_list.append(tool)
        self._ordered = False

    def add_row(self, row: QWidget) -> None:
        """Add a part of fixed height under the head: filters, chips, boxes."""
        self._column.addWidget(row)
        self._rows.append(row)

    def set_body(self, body: QWidget) -> None:
        """Set the part that stretches; there is one, and it comes last."""
        self._body = body
        self._column.addWidget(body, 1)

    def follow(self, signal: SignalInstance, show: Callable[[], None]) -> None:
        """Show again after a signal: at once while the page is seen, otherwise when it is next shown, and then only once."""
        signal.connect(partial(self._told, show))

    def first_box(self) -> QWidget | None:
        """Where the keyboard starts: a page that knows its first unanswered box says so."""
        return first_stop(self._body) if self._body is not None else None

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        late, self._late = self._late, []
        for show in late:
            show()
        if not self._ordered:
            self._ordered = True
            self.order_focus()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_tools()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._fit_tools()

    def _fit_tools(self) -> None:
        """As many tools as need be, from the last one, show their glyph alone where the head is too narrow for their words."""
        shown = [tool for tool in self._tool_list if not tool.isHidden()]
        wide = [(tool.whole_hint() if isinstance(tool, PushButton) else tool.sizeHint()).width() for tool in shown]
        over = self._title.sizeHint().width() + sum(wide) + len(wide) * self._tools.spacing() + _HEAD_EDGES - self.width()
        for tool, whole in reversed(list(zip(shown, wide, strict=True))):
            if isinstance(tool, PushButton) and not tool.icon().isNull():
                tool.shorten(short=over > 0)
                over -= whole - tool.sizeHint().width()

    def _told(self, show: Callable[[], None], *_said: object) -> None:
        if self.isVisible():
            show()
        elif show not in self._late:
            self._late.append(show)

    def _head(self, question: str) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(8, 7, 4, 0)
        row.setSpacing(12)
        row.addWidget(self._title)
        row.addWidget(CutLabel("table", "ink2", question, lines=2))
        row.addStretch(1)
        row.addLayout(self._tools)
        row.addStrut(look.now().px(37) - 1)
        return row

    def order_focus(self) -> None:
        """Boxes first, then the tools: the order in which a page is filled in. Called again where controls were made anew."""
        parts = [*self._rows, self._body, *self._tool_list]
        for before, after in pairwise(stop for part in parts if part is not None for stop in stops(part)):
            QWidget.setTabOrder(before, after)
