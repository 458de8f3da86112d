"""How the frame of the piece chosen is set, in a small table beside the wall; each figure opens in Where from."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QSizePolicy, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.receipt import ReceiptLine
from tundish.desktop.receipt_rows import LineRow
from tundish.desktop.words import clear_out, label
from tundish.figure import Figure
from tundish.layout.room import Placed

ROW: Final = 27
"""Height of a row with its share of the edge, pixels at 100 %."""
_SET: Final = (
    ("studs_apart", "Studs apart"),
    ("slider", "Stud slider, below the mark"),
    ("feet", "Feet out"),
    ("packers", "Packers under the feet"),
    ("reach", "Tie rods reach"),
    ("reach_left", "Left tie rod reaches"),
)


class FrameSettings(QFrame):
    """Hidden until a piece on a frame is chosen; `figure_asked` names the figure of a row that was pressed."""

    figure_asked = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("kind", "note")
        self.setAccessibleName("How the frame is set")
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)  # as wide as the Rod, so that the wall stays put
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._shown: tuple[ReceiptLine, ...] = ()
        self.hide()

    def show_frame(self, placed: Placed | None, high: int) -> None:
        """Show how a frame is set, as many rows as go into so many pixels; nothing where there is none."""
        most = max(high // look.now().px(ROW) - 1, 0)
        lines = tuple(_lines(placed))[:most] if placed is not None and placed.framed else ()
        if lines != self._shown:
            self._shown = lines
            self._lay_out(placed)
        self.setVisible(bool(lines))

    def rows(self) -> tuple[ReceiptLine, ...]:
        """What is shown."""
        return self._shown if self.isVisible() else ()

    def _lay_out(self, placed: Placed | None) -> None:
        clear_out(self._column)
        if placed is None:
            return
        self._column.addWidget(label(f"Frame of {placed.name}", "tableStrong"))
        for line in self._shown:
            row = LineRow(line)
            row.clicked.connect(lambda _=False, key=line.link: self.figure_asked.emit(key))
            self._column.addWidget(row)


def _lines(placed: Placed) -> Iterator[ReceiptLine]:
    for name, words in _SET:
        if name in placed.figures:
            figure = placed.figures[name]
            yield ReceiptLine("", words, _amount(figure), tbc=figure.tbc, link=f"{placed.key}.{name}")
    turned = placed.choice.bracket.removesuffix(" to the wall")
    yield ReceiptLine(
        "", f"Brackets, {turned}, at", _amount(placed.figures["bracket"]), tbc=placed.figures["bracket"].tbc, link=f"{placed.key}.bracket"
    )


def _amount(figure: Figure) -> str:
    return measure.show_range(figure.low, figure.high)
