"""As you move: what a move changed, was and now, in a small table beside the drawing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QSizePolicy, QWidget

from tundish import measure
from tundish.desktop import moves
from tundish.desktop.words import label
from tundish.estimate import Estimate
from tundish.layout.room import Placed, Room

PRICE: Final = "Price"


def facts(estimate: Estimate, room: Room, placed: Placed) -> dict[str, str]:
    """What is told of an appliance while it is moved, by label."""
    return dict(_facts(estimate, room, placed))


class AsYouMove(QFrame):
    """Hidden until something moved."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("kind", "note")
        self.setAccessibleName("As you move")
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)  # as wide as the Rod, so that the wall stays put
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(0, 1)
        self._rows: list[tuple[str, str, str]] = []
        self.hide()

    def show_move(self, name: str, was: dict[str, str], now: dict[str, str]) -> None:
        """Show what was and is now; nothing while they are the same."""
        same = was == now
        rows = [] if same else [(key, was.get(key, "–"), now[key]) for key in now]
        if rows != self._rows:
            self._rows = rows
            self._fill(f"As you move {name}")
            self.setAccessibleDescription(". ".join(f"{key} was {before}, now {after}" for key, before, after in rows))
        self.setVisible(not same)

    def rows(self) -> list[tuple[str, str, str]]:
        """Label, was and now of every row shown."""
        return self._rows if self.isVisible() else []

    def _fill(self, title: str) -> None:
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        right = Qt.AlignmentFlag.AlignRight
        self._grid.addWidget(label(title, "tableStrong"), 0, 0)
        self._grid.addWidget(label("was", "note", "ink2"), 0, 1, right)
        self._grid.addWidget(label("now", "noteStrong"), 0, 2, right)
        for place, (key, was, now) in enumerate(self._rows, 1):
            self._grid.addWidget(label(key, "note"), place, 0)
            unchanged = key == PRICE and was == now
            self._grid.addWidget(label("" if unchanged else was, "note", "ink2"), place, 1, right)
            self._grid.addWidget(label("no change" if unchanged else now, "noteStrong"), place, 2, right)


def _facts(estimate: Estimate, room: Room, placed: Placed) -> Iterator[tuple[str, str]]:
    for size in moves.sizes(room, placed):
        of = size.label.removeprefix(placed.name).removeprefix(",").strip().replace("top above", "top,")
        if "right wall" not in of:
            yield of[:1].upper() + of[1:], measure.show_length(size.shown)
    pipe = next((each for each in room.pipes_of("soil", "waste") if each.serves == placed.key), None)
    if pipe is not None:
        yield "Soil pipe" if pipe.kind == "soil" else "Waste pipe", measure.show_length(pipe.run.value)
    for finding in estimate.findings:
        if finding.group == "Falls" and finding.place == f"{room.name}, {placed.name}" and finding.spare is not None:
            yield "Fall to spare", measure.show_number(finding.spare, 1)
            break
    yield PRICE, measure.show_money(estimate.price.total)
