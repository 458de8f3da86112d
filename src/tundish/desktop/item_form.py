"""One item of the catalogue to type in: name, kind, the sizes its kind must have, ends, what a kit holds, and who sells it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from tundish.catalogue.load import supplied_kinds
from tundish.desktop.boxes import Box
from tundish.desktop.cell_grid import LEAST, CellGrid
from tundish.desktop.chooser import Chooser
from tundish.desktop.words import label

if TYPE_CHECKING:
    from tundish.store.catalogue import ItemRows

ENDS: Final = (("system", "System"), ("nominal", "Size"), ("gender", "Male or female"), ("standard", "Standard"))
KIT: Final = (("part", "Code of the part"), ("amount", "So many"))
OFFERS: Final = (
    ("supplier", "Supplier"),
    ("code", "Their code"),
    ("pack", "Pack"),
    ("price", "Price, £"),
    ("length", "Length"),
    ("width", "Width"),
    ("valid_from", "From"),
    ("valid_to", "Until"),
    ("least", "Least"),
    ("lead_days", "Days to come"),
    ("breaks", "Packs: price"),
)
OFFERS_ACROSS: Final = 4
_ACROSS: Final = 2


class ItemForm(QWidget):
    """Boxes for everything that an item says. Changing its kind keeps the sizes that both kinds have."""

    def __init__(self) -> None:
        super().__init__()
        self._kinds = sorted(supplied_kinds())
        self._sizes: dict[str, Box] = {}
        self._shown: list[QWidget] = []
        self._size_head = label("Sizes", "tableStrong")
        self._code, self._item_name, self._sheet = Box("Code"), Box("Name"), Box("Maker's sheet")
        self._kind = Chooser("Kind")
        self._kind.show_choices(self._kinds, 0)
        self._kind.taken.connect(self._kind_taken)
        self._ends, self._kit, self._offers = CellGrid("End", ENDS), CellGrid("Part", KIT), CellGrid("Offer", OFFERS, OFFERS_ACROSS)
        self._before = label("", "note", "ink2", wrap=True)
        self._size_part = QWidget()
        self._grid = QGridLayout(self._size_part)
        self._grid.setContentsMargins(0, 0, 0, 0)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 8)
        column.addLayout(self._top())
        column.addWidget(self._size_head)
        column.addWidget(self._size_part)
        parts = (("Who sells it", self._offers), ("", self._before), ("Ends", self._ends), ("What the kit holds", self._kit))
        for title, part in parts:
            if title:
                column.addWidget(label(title, "tableStrong"))
            column.addWidget(part)
        column.addStretch(1)

    def show_item(self, rows: ItemRows, *, new: bool, before: str = "") -> None:
        """Show an item, and what it cost before in words; the code of one that is there stays."""
        self._code.show_value(rows.item.get("code", ""))
        self._code.setEnabled(new)
        self._item_name.show_value(rows.item.get("name", ""))
        self._sheet.show_value(rows.item.get("sheet", ""))
        for box in (self._code, self._item_name, self._sheet):
            box.setCursorPosition(0)
        self._kind.choose(rows.item.get("kind", self._kinds[0]))
        self._show_sizes(rows.item)
        self._ends.show_rows(rows.ends)
        self._kit.show_rows(rows.kit)
        self._offers.show_rows(rows.offers)
        self._before.setText(before)
        self._before.setVisible(bool(before))

    def rows(self) -> ItemRows:
        """The item as it is typed."""
        from tundish.store.catalogue import ItemRows

        own = {"code": self._code, "name": self._item_name, "sheet": self._sheet, **self._sizes}
        item = {key: box.text().strip() for key, box in own.items()} | {"kind": self._kind.currentText()}
        return ItemRows(item, self._ends.rows(), self._kit.rows(), self._offers.rows())

    def _top(self) -> QGridLayout:
        grid = QGridLayout()
        boxes = (("Name", self._item_name), ("Code", self._code), ("Kind", self._kind), ("Maker's sheet", self._sheet))
        for place, (words, box) in enumerate(boxes):
            box.setMinimumWidth(LEAST)
            grid.addWidget(label(words, "table", "ink2"), place // 2, place % 2 * 2)
            grid.addWidget(box, place // 2, place % 2 * 2 + 1)
        return grid

    def _kind_taken(self, _name: str) -> None:
        self._show_sizes({key: box.text() for key, box in self._sizes.items()})

    def _show_sizes(self, cells: Mapping[str, str]) -> None:
        """A box for each size and word of the kind, with its unit as kinds.toml has it; those that may be left out say so."""
        for old in self._shown:
            old.hide()
            old.deleteLater()
        self._shown = []
        kind = supplied_kinds()[self._kind.currentText()]
        named = {**kind.sizes, **kind.may, **dict.fromkeys(kind.words, "words")}
        self._sizes = {}
        for place, (key, unit) in enumerate(named.items()):
            words = f"{key.replace('_', ' ').capitalize()}, {unit}{' (may)' if key in kind.may else ''}"
            box = self._sizes[key] = Box(words, figure=unit != "words")
            box.show_value(cells.get(key, ""))
            box.setMaximumWidth(120 if unit != "words" else 240)
            head = label(words, "note", "ink2")
            self._shown += [head, box]
            self._grid.addWidget(head, place // _ACROSS, place % _ACROSS * 2)
            self._grid.addWidget(box, place // _ACROSS, place % _ACROSS * 2 + 1)
        self._size_head.setText("Sizes" if named else "Sizes: a thing of this kind has none")
