"""One page of a paper in the window, as wide as there is room or at its true size."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QPixmap, QResizeEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea

from tundish.desktop import look

A4_WIDE_MM: Final = 210
MM_AN_INCH: Final = 25.4
AROUND: Final = 10
SETTLE_MS: Final = 120
"""How long the window must keep its width before the page is drawn anew."""


class Preview(QScrollArea):
    """Shows a picture of a page. It says how many pixels wide it wants one, and when another page is asked for."""

    wanted = Signal()
    turned = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self._page = QLabel()
        self._page.setAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop)
        self._page.setMargin(AROUND)
        self._page.setProperty("role", "body")
        self._page.setWordWrap(True)
        self.true_size = False
        self.setWidget(self._page)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.setAccessibleName("Preview")
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self._settle.setInterval(SETTLE_MS)
        self._settle.timeout.connect(self.wanted)

    def pixels_wide(self) -> int:
        """How wide a page is wanted, in the screen's own pixels."""
        scale = self.devicePixelRatioF()
        if self.true_size:
            return round(A4_WIDE_MM / MM_AN_INCH * self.screen().physicalDotsPerInchX() * scale)
        return round(max(self.viewport().width() - 2 * AROUND, look.now().px(160)) * scale)

    def show_picture(self, picture: QPixmap, words: str, *, from_top: bool) -> None:
        """Show a page; `words` say it to a screen reader."""
        picture.setDevicePixelRatio(self.devicePixelRatioF())
        self._page.setPixmap(picture)
        self.setAccessibleName(words)
        if from_top:
            self.verticalScrollBar().setValue(0)

    def show_words(self, words: str) -> None:
        """Say why there is no page."""
        self._page.setText(words)
        self.setAccessibleName(words)

    def page_shown(self) -> QPixmap:
        """The picture shown now."""
        return self._page.pixmap()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        match event.key():
            case Qt.Key.Key_PageDown:
                self.turned.emit(1)
            case Qt.Key.Key_PageUp:
                self.turned.emit(-1)
            case _:
                super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if not self.true_size and event.size().width() != event.oldSize().width():
            self._settle.start()
