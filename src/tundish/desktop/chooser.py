"""A box to choose one of a list, painted like the other boxes, on the page or on slate."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QWidget

from tundish.desktop import icons, look
from tundish.desktop.painted import ENTER, panel, pen, width_of, write


class Chooser(QComboBox):
    """One of a list. The wheel turns it only while it has the keyboard, so that scrolling a page changes nothing."""

    taken = Signal(str)
    entered = Signal()
    tbc_asked = Signal()

    def __init__(self, name: str, *, on_slate: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._on_slate = on_slate
        self._bad = False
        self.textActivated.connect(self.taken)

    def choose(self, text: str) -> None:
        """Show a text of the list as chosen, without a signal; one that is not in it shows nothing chosen."""
        blocked = self.blockSignals(True)
        self.setCurrentIndex(self.findText(text))
        self.blockSignals(blocked)
        self.update()

    def show_choices(self, texts: Sequence[str], current: int) -> None:
        """The texts to choose from and the one chosen, without a signal."""
        blocked = self.blockSignals(True)
        if [self.itemText(place) for place in range(self.count())] != list(texts):
            self.clear()
            self.addItems(list(texts))
        self.setCurrentIndex(current)
        self.blockSignals(blocked)
        self.updateGeometry()
        self.update()

    def show_bad(self, *, bad: bool) -> None:
        """Mark the choice as one that will not do."""
        self._bad = bad
        self.update()

    def sizeHint(self) -> QSize:
        px = look.now().px
        role = "bodyStrong" if self._on_slate else "body"
        widest = max((width_of(self.itemText(place), role) for place in range(self.count())), default=0)
        widest = max(widest, self.minimumContentsLength() * width_of("n", role))
        return QSize(widest + px(10) + px(30), look.now().px(34) if self._on_slate else look.now().row(30))

    def minimumSizeHint(self) -> QSize:
        return QSize(look.now().px(64), self.sizeHint().height())

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self.updateGeometry()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_T and event.modifiers() == Qt.KeyboardModifier.ControlModifier:
            self.tbc_asked.emit()
        elif event.key() in ENTER:
            self.focusNextPrevChild(True)  # as in every box: what it shows is taken already
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()

    def paintEvent(self, _event: QPaintEvent) -> None:
        px = look.now().px
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tone = "slateText" if self._on_slate else "ink" if self.isEnabled() else "edge"
        edge = "slateEdge" if self._on_slate else "fails" if self._bad else "edge"
        fill = None if self._on_slate else look.colour("sheet" if self.isEnabled() else "tray")
        panel(painter, QRectF(self.rect()), fill=fill, edge=pen(edge))
        room = QRect(px(9), 0, self.width() - px(36), self.height())
        write(painter, room, self.currentText(), "bodyStrong" if self._on_slate else "body", tone)
        side = px(14)
        icons.draw(painter, QRect(self.width() - side - px(8), (self.height() - side) // 2, side, side), "chevd", tone)
