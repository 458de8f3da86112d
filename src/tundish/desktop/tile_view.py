"""Tile set-out: the best starts side by side, each with its end cuts and what it spoils; one of them is chosen."""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from tundish.desktop.canvas.sketch import Sketch
from tundish.desktop.words import button, label
from tundish.documents import tile_drawing
from tundish.layout.room import Room
from tundish.layout.tile_starts import Choice
from tundish.layout.tiled_floor import floor_choices, floor_laid
from tundish.layout.tiled_room import tile_choices, tiled

MOST: Final = 4
"""The best three, and the one that was chosen where it is not among them."""


class StartCard(QFrame):
    """One start: its drawing, what it is, its end cuts, what it takes and what it spoils."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("kind", "card")
        self.start = ""
        self._sketch = Sketch()
        self._sketch.setFixedHeight(150)
        self._name = label("", "tableStrong", wrap=True)
        self._ends, self._count = label("", "table", "ink2", wrap=True), label("", "table", "ink2", wrap=True)
        self._spoils = label("", "table", "tbc", wrap=True)
        self.choose = button("Start so", "tick")
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 10, 10, 10)
        column.setSpacing(5)
        for part in (self._sketch, self._name, self._ends, self._count, self._spoils):
            column.addWidget(part)
        column.addStretch(1)
        column.addWidget(self.choose)

    def show_choice(self, choice: Choice, *, taken: bool) -> None:
        """Show a start; the one that is taken cannot be chosen again."""
        self.start = choice.start.name
        self._name.setText(self.start[:1].upper() + self.start[1:])
        self._ends.setText(tile_drawing.ends(choice))
        self._count.setText(tile_drawing.counted(choice))
        self._spoils.setText("; ".join(tile_drawing.spoilt(choice)) or "Spoils nothing")
        self._sketch.show_drawing(tile_drawing.tiles(choice.faces[0], sizes=False), tile_drawing.told(choice))
        self.choose.setText("Set out so" if taken else "Start so")
        self.choose.setAccessibleName(f"{self.choose.text()}: {self.start}")
        self.choose.setEnabled(not taken)


class TileView(QWidget):
    """The starts of the pre-wall that is looked at, or of its room's floor, and under them its holes and what else is to be seen to."""

    chosen = Signal(str)

    def __init__(self, *, floor: bool = False) -> None:
        super().__init__()
        self._floor = floor
        self.cards = tuple(StartCard() for _ in range(MOST))
        self._title, self._notes = label("", "section"), label("", "table", "ink2", wrap=True)
        row = QHBoxLayout()
        row.setSpacing(10)
        for card in self.cards:
            card.choose.clicked.connect(self._choose)
            row.addWidget(card, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 12)
        column.setSpacing(8)
        column.addWidget(self._title)
        column.addLayout(row)
        column.addWidget(self._notes)

    def show_room(self, room: Room) -> bool:
        """Show the starts of a pre-wall, or of the floor that its room's first one has; whether there is anything to tile."""
        laid, choices = (floor_laid(room), floor_choices(room)) if self._floor else (tiled(room), tile_choices(room))
        tile = room.floor.tile if self._floor and room.floor else room.tile
        for place, card in enumerate(self.cards):
            card.setVisible(place < len(choices))
            if place < len(choices):
                card.show_choice(choices[place], taken=laid is not None and choices[place].start.name == laid.start.name)
        self._title.setText(f"{room.room_name}, floor: {tile.name}" if self._floor else f"{room.name}: {tile.name}")
        self._notes.setText("\n".join(_notes(laid)) if laid else "")
        return bool(choices)

    def _choose(self) -> None:
        pressed = self.sender()
        card = next((each for each in self.cards if each.choose is pressed), None)
        if card is not None:
            self.chosen.emit(card.start)


def _notes(laid: Choice) -> list[str]:
    holes = [
        f"{hole}: {face.face.name}, {tile}, {x:.0f} from its left, {z:.0f} from its foot, "
        + (f"{edge:.0f} left to the edge" if edge >= 0 else "notched: it runs over the edge")
        for face in laid.faces
        for hole, tile, x, z, edge in tile_drawing.drilled(face)
    ]
    return [*holes, *tile_drawing.notes(laid), tile_drawing.ONE_BATCH]
