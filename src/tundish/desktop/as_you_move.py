"""As you move: what a move changed, was and now, in a small table beside the drawing."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QSizePolicy, QWidget

from tundish import measure
from tundish.desktop.moves import Thing
from tundish.desktop.words import CutLabel, clear_out, label
from tundish.documents.shortfalls import FALLS
from tundish.documents.tile_lines import end_tiles
from tundish.layout.room import Room
from tundish.rules.rule import Finding

PRICE: Final = "Price"


def facts(price: Decimal, room: Room, thing: Thing, findings: tuple[Finding, ...]) -> dict[str, str]:
    """What is told of a thing while it is moved, by label."""
    return dict(_facts(price, room, thing, findings))


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
        self._shown: list[tuple[QLabel, QLabel, QLabel]] = []
        self._title = CutLabel("tableStrong", "ink")
        self._laid: list[str] = []
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

    def sentence(self) -> str:
        """What changed, in a sentence for a screen reader."""
        changed = [f"{key} {now}" for key, was, now in self.rows() if was != now]
        return ". ".join(changed)

    def _fill(self, title: str) -> None:
        """Write the rows; labels are kept while there are as many, for a move must not wait for them."""
        if self._laid != [key for key, _, _ in self._rows]:
            self._laid = [key for key, _, _ in self._rows]
            self._lay_out()
        self._title.setText(title)
        for (key, was, now), labels in zip(self._rows, self._shown, strict=True):
            shown = (key, was, now)
            if key == PRICE:  # amounts are wide: what it was stands beside the word
                shown = (PRICE, "", "no change") if was == now else (f"{PRICE}, was {was}", "", now)
            for each, words in zip(labels, shown, strict=True):
                each.setText(words)

    def _lay_out(self) -> None:
        clear_out(self._grid)
        right = Qt.AlignmentFlag.AlignRight
        self._title = CutLabel("tableStrong", "ink")
        self._grid.addWidget(self._title, 0, 0, 1, 3)
        self._grid.addWidget(label("was", "note", "ink2"), 1, 1, right)
        self._grid.addWidget(label("now", "noteStrong"), 1, 2, right)
        self._shown = [(label("", "note"), label("", "note", "ink2"), label("", "noteStrong")) for _ in self._rows]
        for place, (name, was, now) in enumerate(self._shown, 2):
            wide = self._rows[place - 2][0] == PRICE
            self._grid.addWidget(name, place, 0, 1, 2 if wide else 1)
            self._grid.addWidget(was, place, 1, right)
            self._grid.addWidget(now, place, 2, right)


def _facts(price: Decimal, room: Room, thing: Thing, findings: tuple[Finding, ...]) -> Iterator[tuple[str, str]]:
    for size in thing.sizes:
        of = size.label.removeprefix(thing.name).removeprefix(",").strip()
        of = of.replace("top above finished floor", "top, finished floor").replace("bottom above finished floor", "bottom, finished floor")
        if "right wall" not in of and of not in {"width", "height", "depth"}:
            yield of[:1].upper() + of[1:], measure.show_length(size.shown)
    pipe = next((each for each in room.pipes_of("soil", "waste") if each.serves == thing.key), None)
    if pipe is not None:
        yield "Soil pipe" if pipe.kind == "soil" else "Waste pipe", measure.show_length(pipe.run.value)
    for finding in findings:
        if finding.rule in FALLS and finding.place == f"{room.name}, {thing.name}" and finding.spare is not None:
            yield "Fall to spare", measure.show_number(finding.spare, 1)
            break
    for side, cut in zip(("left", "right"), end_tiles(room), strict=True):
        yield f"End tile, {side}", measure.show_length(cut)
    yield PRICE, measure.show_money(price)
