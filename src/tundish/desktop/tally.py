"""The tally along the bottom: live quantities, the price, and long work with a way to stop it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QSizePolicy, QWidget

from tundish.desktop import look
from tundish.desktop.painted import Painted, line, panel, pen, width_of, write
from tundish.desktop.words import label


class Amount(Painted):
    """One quantity; pressing it asks where it comes from."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__("", parent)
        self._value = ""
        self._strong = "amount"
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setProperty("ground", "slate")

    def show_amount(self, name: str, value: str, strong: str = "amount") -> None:
        """Show a name and its value."""
        self.setText(name)
        self._value, self._strong = value, strong
        self.setAccessibleName(f"{name} {value}".strip())
        self.updateGeometry()
        self.update()

    def measure(self) -> QSize:
        """How large it wants to be."""
        px = look.now().px
        value = px(6) + width_of(self._value, self._strong) if self._value else 0
        return QSize(width_of(self.text(), "table") + value + 2, look.now().px(34))

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        if self.underMouse():
            line(painter, QPointF(0, self.height() - 7), QPointF(self.width(), self.height() - 7), "slateEdge")
        name = width_of(self.text(), "table")
        write(painter, QRect(0, 0, name + 1, self.height()), self.text(), "table", "slateText2")
        left = name + look.now().px(6)
        write(painter, QRect(left, 0, self.width() - left, self.height()), self._value, self._strong, "slateText")


class StopButton(Painted):
    """Stops the long work shown beside it."""

    def measure(self) -> QSize:
        """How large it wants to be."""
        px = look.now().px
        return QSize(width_of(self.text(), "tableStrong") + px(20), px(24))

    def show_on(self, painter: QPainter) -> None:
        """Paint it."""
        panel(painter, self.rect().toRectF(), edge=pen("slateText" if self.underMouse() else "slateEdge"))
        write(painter, self.rect().adjusted(look.now().px(10), 0, 0, 0), self.text(), "tableStrong", "slateText")


class Amounts(QWidget):
    """The quantities in a row, with a rule after each; those that have no room at the right are left out."""

    asked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown: list[Amount] = []
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def set_amounts(self, amounts: list[tuple[str, str]]) -> None:
        """Show these (name, value) pairs."""
        while len(self._shown) > len(amounts):
            self._shown.pop().deleteLater()
        while len(self._shown) < len(amounts):
            made = Amount(self)
            made.clicked.connect(self._pressed)
            self._shown.append(made)
        for shown, amount in zip(self._shown, amounts, strict=True):
            shown.show_amount(*amount)
        self._place()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        middle, half = self.height() / 2, look.now().px(8)
        for shown in self._shown:
            if not shown.isHidden():
                x = shown.geometry().right() + look.now().px(14) + 0.5
                line(painter, QPointF(x, middle - half), QPointF(x, middle + half), "slateEdge")

    def _place(self) -> None:
        gap, left = look.now().px(14), 0
        for shown in self._shown:
            size = shown.sizeHint()
            shown.setGeometry(left, 0, size.width(), self.height())
            shown.setVisible(left + size.width() + gap <= self.width())
            left += size.width() + gap * 2
        self.update()

    def _pressed(self) -> None:
        amount = self.sender()
        if isinstance(amount, Amount):
            self.asked.emit(amount.text())


class Tally(QWidget):
    """Quantities at the left, the price at the right, and long work before them while it lasts."""

    stop_asked = Signal()
    amount_asked = Signal(str)
    price_asked = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Tally")
        self._working = label("", "table", "slateText")
        self._bar = QProgressBar()
        self._bar.setTextVisible(False)
        self._bar.setFixedSize(120, 8)
        self._stop = StopButton("Stop")
        self._stop.setProperty("ground", "slate")
        self._amounts = Amounts()
        self._nothing = label("Tally: nothing to count yet", "table", "slateText2")
        self._price = Amount(self)
        self._lay_out()
        self._stop.clicked.connect(self.stop_asked)
        self._amounts.asked.connect(self.amount_asked)
        self._price.clicked.connect(self.price_asked)
        self.set_working("", None)
        self.set_amounts([])
        self.set_price("", "")

    def set_amounts(self, amounts: list[tuple[str, str]]) -> None:
        """Show these (name, value) pairs; none says that there is nothing to count yet."""
        self._nothing.setVisible(not amounts)
        self._amounts.set_amounts(amounts)

    def set_price(self, name: str, text: str) -> None:
        """Show the price under its name ("Price inc. VAT"), or nothing."""
        self._price.show_amount(name, text, "price")
        self._price.setVisible(bool(name))

    def say(self, words: str) -> None:
        """Say what was done ("Undone: …"): there is nothing to stop about it."""
        self.set_working(words, None)
        self._stop.hide()

    def set_working(self, text: str, fraction: float | None) -> None:
        """Show long work ("Cut list, 3 of 5 materials") and how far it is, None where that is not known; "" ends it."""
        self._working.setText(text)
        self._bar.setValue(round((fraction or 0) * 100))
        self._bar.setAccessibleName(text)
        self._bar.setVisible(bool(text) and fraction is not None)
        for each in (self._working, self._stop):
            each.setVisible(bool(text))

    def paintEvent(self, _event: QPaintEvent) -> None:
        QPainter(self).fillRect(self.rect(), look.colour("slate"))

    def _lay_out(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 0, 16, 0)
        row.setSpacing(10)
        for each in (self._working, self._bar, self._stop, self._nothing):
            row.addWidget(each)
        row.addWidget(self._amounts, 1)
        row.addWidget(self._price)
