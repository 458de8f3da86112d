"""The tools of Setting out: Add, Measure, Snap, Show and Whole room, each saying what was asked."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from PySide6.QtCore import QObject, QPoint, Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QWidget

from tundish.desktop.menu_button import MenuButton
from tundish.desktop.prewalls import ADDED
from tundish.desktop.snapping import GRIDS
from tundish.desktop.words import button
from tundish.documents.wall_drawing import Show
from tundish.layout.appliances.kinds import KINDS

LAYERS: Final = (
    ("tiles", "Tiles"),
    ("boards", "Boards"),
    ("steel", "Frames, steel and timber"),
    ("pipes", "Pipes"),
    ("ware", "Ware"),
)
RECESSES: Final = (("niche", "Niche"), ("hatch", "Access opening"), ("towel rail", "Towel rail support"), ("noggin", "Noggin"))


class SettingTools(QObject):
    """Made once; the page puts `buttons` into its head."""

    add_asked = Signal(str)
    prewall_asked = Signal(str)
    show_changed = Signal()
    whole_toggled = Signal(bool)
    tape_toggled = Signal(bool)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.show, self.grid = Show(), GRIDS[0]
        self.adds, self.layers = MenuButton("Add", "add", main=True), MenuButton("Show", "frame")
        self.snap = MenuButton(_grid_words(self.grid), "snap")
        self.tape, self.whole = button("Measure", "measure"), button("Whole room", "fit")
        for each in (self.tape, self.whole):
            each.setCheckable(True)
        self._make_menus()
        self.whole.toggled.connect(self.whole_toggled)
        self.tape.toggled.connect(self.tape_toggled)

    @property
    def buttons(self) -> tuple[QWidget, ...]:
        """In the order they stand."""
        return self.adds, self.tape, self.snap, self.layers, self.whole

    def offer(self) -> None:
        """Open the menu of what can be added."""
        menu = self.adds.menu()
        menu.popup(self.adds.mapToGlobal(QPoint(0, self.adds.height())))
        menu.setActiveAction(menu.actions()[0])

    def _make_menus(self) -> None:
        adds, layers, snaps = QMenu("Add", self.adds), QMenu("Show", self.layers), QMenu("Snap", self.snap)
        for key, words in (*((each.key, each.title) for each in KINDS.values()), *RECESSES):
            adds.addAction(words).setData(key)
        adds.addSeparator()
        for key, words in ADDED:
            adds.addAction(words).setData(key)
        for layer, words in LAYERS:
            _checkable(layers.addAction(words), layer, taken=True)
        group = QActionGroup(snaps)
        for grid in GRIDS:
            action = snaps.addAction("Off" if not grid else f"{grid:g} mm")
            _checkable(action, grid, taken=grid == self.grid)
            group.addAction(action)
        for tool, menu in ((self.adds, adds), (self.layers, layers), (self.snap, snaps)):
            tool.setMenu(menu)
        adds.triggered.connect(self._add)
        layers.triggered.connect(self._show_layer)
        snaps.triggered.connect(self._choose_grid)

    def _add(self, action: QAction) -> None:
        key = str(action.data())
        (self.prewall_asked if key in dict(ADDED) else self.add_asked).emit(key)

    def _show_layer(self, action: QAction) -> None:
        self.show = replace(self.show, **{str(action.data()): action.isChecked()})
        self.show_changed.emit()

    def _choose_grid(self, action: QAction) -> None:
        self.grid = float(action.data())
        self.snap.setText(_grid_words(self.grid))
        self.snap.setAccessibleName(_grid_words(self.grid))


def _checkable(action: QAction, data: object, *, taken: bool) -> None:
    action.setCheckable(True)
    action.setChecked(taken)
    action.setData(data)


def _grid_words(grid: float) -> str:
    return f"Snap {grid:g} mm" if grid else "Snap off"
