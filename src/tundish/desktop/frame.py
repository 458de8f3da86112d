"""Places the five regions of the window; Where from folds to a strip where the page would get too narrow."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import QEvent, QRect, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QResizeEvent
from PySide6.QtWidgets import QStackedWidget, QWidget

from tundish.desktop import icons, look, tokens
from tundish.desktop.job_line import JobLine
from tundish.desktop.painted import Painted
from tundish.desktop.run import Run
from tundish.desktop.tally import Tally
from tundish.desktop.where_from import WhereFrom

STRIP: Final = 40
"""Width of Where from when it is folded, pixels at 100 %."""
NARROWEST_PAGE: Final = 800
"""A page is never made narrower than this by Where from, pixels at 100 %."""


class Strip(Painted):
    """Where from, folded: pressing it opens the column over the page."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("Where from", parent)
        self.setToolTip("Where from (F9)")

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        px = look.now().px
        painter.fillRect(self.rect(), look.colour("tray" if self.underMouse() else "sheet"))
        painter.setPen(look.colour("hairline"))
        painter.drawLine(0, 0, 0, self.height())
        icons.draw(painter, QRect((self.width() - px(16)) // 2, px(14), px(16), px(16)), "tundish", "chalk")
        painter.translate(self.width() / 2, px(42))
        painter.rotate(90)
        painter.setPen(look.colour("chalk"))
        painter.setFont(look.font("noteStrong"))
        painter.drawText(QRect(0, -px(10), px(120), px(20)), Qt.AlignmentFlag.AlignVCenter, self.text())


class Frame(QWidget):
    """The regions: job line, Run, page, Where from, tally. It places them and knows how Where from stands."""

    where_from_moved = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.pages = QStackedWidget(self)
        self.strip = Strip(self)
        self.where_from = WhereFrom(self)
        self.tally = Tally(self)
        self.job_line = JobLine(self)
        self.run = Run(self)
        self._put_away = False
        self._over = False
        self.strip.clicked.connect(self.open_where_from)
        self.where_from.fold_asked.connect(self.fold_where_from)

    @property
    def folded(self) -> bool:
        """Whether Where from is a strip beside the page: put away by the user, or for want of room."""
        beside = self.width() - look.now().px(tokens.region("run_w") + tokens.region("whereFrom_w"))
        return self._put_away or beside < look.now().px(NARROWEST_PAGE)

    @property
    def where_from_shown(self) -> bool:
        """Whether the column can be read now, beside the page or over it."""
        return self._over or not self.folded

    def open_where_from(self) -> None:
        """Show the column: beside the page where there is room, else over it."""
        self._put_away = False
        self._over = self.folded
        self._place()
        self.where_from.focus_first()

    def fold_where_from(self) -> None:
        """Put the column away until it is asked for."""
        self._put_away = True
        self._over = False
        self._place()
        self.where_from_moved.emit()

    def leave_where_from(self) -> None:
        """Uncover the page again if the column lay over it."""
        self._over = False
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._over = self._over and self.folded
        self._place()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._place()

    def minimumSizeHint(self) -> QSize:
        wide, high = tokens.region("minimum_window")
        return QSize(wide, high)

    def _place(self) -> None:
        px = look.now().px
        wide, high = self.width(), self.height()
        top, foot, left = px(tokens.region("jobLine_h")), px(tokens.region("tally_h")), px(tokens.region("run_w"))
        column = px(tokens.region("whereFrom_w"))
        right = px(STRIP) if self.folded else column
        middle = high - top - foot
        self.job_line.setGeometry(0, 0, wide, top)
        self.run.setGeometry(0, top, left, middle)
        self.pages.setGeometry(left, top, wide - left - right, middle)
        self.strip.setGeometry(wide - right, top, right, middle)
        self.where_from.setGeometry(wide - column, top, column, middle)
        self.tally.setGeometry(0, high - foot, wide, foot)
        self.strip.setVisible(self.folded)
        self.where_from.setVisible(self.where_from_shown)
        if self._over:
            self.where_from.raise_()
