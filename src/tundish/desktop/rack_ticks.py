"""The offcuts that the plans cut from, each with a tick: take it out where the piece is not there after all."""

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

    def __init__(self) -> None:
        self._said = label("Really there?", "table", "ink2")
        super().__init__((self._said,), above=0)
        self._ticks: dict[str, TickBox] = {}

    def show_pieces(self, plans: list[CutPlan]) -> None:
        """Show a tick for each piece of the rack that is cut from."""
        wanted = {
            source.key: f"{source.key} {plan.item.name} {measure.show_length(source.length)}, {source.place}"
            for plan in plans
            for source, count in zip(plan.sources, plan.plan.used(), strict=True)
            if count and isinstance(source, RackPiece) and source.key not in plan.begun
        }
        for key in [one for one in self._ticks if one not in wanted]:
            tick = self._ticks.pop(key)
            tick.hide()
            tick.deleteLater()
        for key, words in wanted.items():
            if key not in self._ticks:
                self._ticks[key] = self._tick(key, words)
        self.set_parts((self._said, *self._ticks.values()))
        self.setVisible(bool(wanted))

    def tick_of(self, key: str) -> TickBox | None:
        """The tick of a piece, where it is shown."""
        return self._ticks.get(key)

    def _tick(self, key: str, words: str) -> TickBox:
        tick = TickBox(words)
        tick.setObjectName(key)
        tick.setAccessibleName(f"{words}, is there")
        tick.setChecked(True)
        tick.clicked.connect(self._clicked)
        return tick

    def _clicked(self) -> None:
        tick = self.sender()
        if isinstance(tick, TickBox) and not tick.isChecked():
            self.missing.emit(tick.objectName())
