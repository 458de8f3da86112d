"""The offcuts that the plans cut from, each with a tick: take it out where the piece is not there after all, set it where it is."""

from __future__ import annotations

from PySide6.QtCore import Signal

from tundish import measure
from tundish.catalogue.item import RackPiece
from tundish.cutting.plans import CutPlan
from tundish.desktop.boxes import TickBox
from tundish.desktop.flow import Flow
from tundish.desktop.words import label


class RackTicks(Flow):
    """Ticks, in more lines where one is too narrow; hidden where nothing comes from the rack."""

    missing = Signal(str)
    """The key of a piece that is not there."""
    found = Signal(str)
    """The key of a piece that is there after all."""

    def __init__(self) -> None:
        self._said = label("Really there?", "table", "ink2")
        super().__init__((self._said,), above=0)
        self._ticks: dict[str, TickBox] = {}
        self._gone: dict[str, tuple[str, str]] = {}

    def forget(self) -> None:
        """Of another job nothing was taken out."""
        self._gone = {}

    def show_pieces(self, plans: list[CutPlan]) -> None:
        """Show a tick for each piece of the rack that is cut from, and an open one for each that was said not to be there."""
        there = {
            source.key: (plan.item.code, f"{source.key} {plan.item.name} {_size(source)}, {source.place}")
            for plan in plans
            for source in plan.from_rack
            if source.key not in plan.begun
        }
        items = {plan.item.code for plan in plans}
        self._gone = {key: piece for key, piece in self._gone.items() if key not in there}
        wanted = there | {key: piece for key, piece in self._gone.items() if piece[0] in items}
        for key in [one for one in self._ticks if one not in wanted]:
            tick = self._ticks.pop(key)
            tick.hide()
            tick.deleteLater()
        for key, (item, words) in wanted.items():
            if key not in self._ticks:
                self._ticks[key] = self._tick(key, item, words)
            self._ticks[key].setChecked(key in there)
        self.set_parts((self._said, *self._ticks.values()))
        self.setVisible(bool(wanted))

    def tick_of(self, key: str) -> TickBox | None:
        """The tick of a piece, where it is shown."""
        return self._ticks.get(key)

    def _tick(self, key: str, item: str, words: str) -> TickBox:
        tick = TickBox(words)
        tick.setObjectName(key)
        tick.setProperty("item", item)
        tick.setAccessibleName(f"{words}, is there")
        tick.clicked.connect(self._clicked)
        return tick

    def _clicked(self) -> None:
        tick = self.sender()
        if not isinstance(tick, TickBox):
            return
        if tick.isChecked():
            self.found.emit(tick.objectName())
        else:
            self._gone[tick.objectName()] = (str(tick.property("item")), tick.text())
            self.missing.emit(tick.objectName())


def _size(piece: RackPiece) -> str:
    """How long it is, and how wide where it is a sheet."""
    return " × ".join(measure.show_length(each) for each in (piece.length, piece.width) if each)
