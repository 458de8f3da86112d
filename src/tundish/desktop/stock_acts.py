"""What can be done with the chosen line of Stock: carry it elsewhere, keep it for its job no longer, scrap an offcut, undo that."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from tundish.desktop.chooser import Chooser
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace

if TYPE_CHECKING:
    from tundish.catalogue.item import RackPiece
    from tundish.store.ledger import Holding, Ledger


class StockActs(QWidget):
    """The acts for one line; `done` is sent once stock has changed, with what was done."""

    done = Signal(str)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        from tundish.store.ledger import PLACES

        self._workspace, self._places = workspace, PLACES
        self._piece: RackPiece | None = None
        self._holding: Holding | None = None
        self._gone = ""
        self._name = label("", "table", "ink2")
        self._place = Chooser("Carry to")
        self._place.show_choices(PLACES, 0)
        self._acts = (button("Carry there"), button("Let it go"), button("Scrap it"), button("Back on the rack", "undo"))
        self._acts[1].setToolTip("No longer keep it for its job")
        for each, act in zip(self._acts, (self._carry, self._let_go, self._scrap, self._put_back), strict=True):
            each.clicked.connect(act)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        for widget in (self._name, self._place, *self._acts):
            row.addWidget(widget)
        row.addStretch(1)
        self.choose("")

    def choose(self, row: str) -> None:
        """Take the row of the table with this key as the line to act on."""
        ledger, piece, moved = self._ledger(), row.removeprefix("rack "), row.removeprefix("move:")
        self._piece, self._holding, self._gone = None, None, ""
        if piece != row:
            self._piece = next((each for each, _ in ledger.pieces() if each.key == piece), None)
        elif moved != row:
            gone = next((each.piece for each in ledger.movements() if str(each.id) == moved), "")
            self._gone = "" if gone in {each.key for each, _ in ledger.pieces()} else gone
        elif row:
            self._holding = next((each for each in ledger.on_hand() if f"{each.item}@{each.place}@{each.job}" == row), None)
        self._show()

    def _show(self) -> None:
        line = self._piece or self._holding
        name = self._workspace.book.item(line.item).name if line else f"Piece {self._gone}" if self._gone else ""
        self._name.setText(name or "Choose a line to carry it, let it go or scrap it")
        here = (line is not None, bool(line and line.job), self._piece is not None, bool(self._gone))
        self._place.setVisible(line is not None)
        if line is not None:
            self._place.choose(next(each for each in self._places if each != line.place))
        for each, shown in zip(self._acts, here, strict=True):
            each.setVisible(shown)

    def _carry(self) -> None:
        to, ledger = self._place.currentText(), self._ledger()
        line = self._piece or self._holding
        if line is None or line.place == to:
            self.done.emit(f"It is at the {to} already" if line else "")
            return
        if self._piece is not None:
            ledger.shift_piece(self._piece.key, to)
        elif self._holding is not None:
            ledger.shift(self._holding, to)
        self._tell(f"Carried to the {to}")

    def _let_go(self) -> None:
        if self._piece is not None:
            self._ledger().let_go_piece(self._piece.key)
        elif self._holding is not None:
            self._ledger().let_go(self._holding)
        self._tell("Free for any job now")

    def _scrap(self) -> None:
        from tundish.store.ledger import SCRAPPED

        if self._piece is not None:
            said = self._ledger().take_piece(self._piece.key, SCRAPPED)
            self._tell(said or f"{self._piece.key} is scrapped: the ledger puts it back if it was not to be")

    def _put_back(self) -> None:
        from tundish.store.ledger import STOCK_TAKE

        self._tell(self._ledger().put_back(self._gone, STOCK_TAKE, note="found after all") or f"{self._gone} is on the rack again")

    def _tell(self, words: str) -> None:
        self._workspace.book_has_changed()
        self.choose("")
        self.done.emit(words)

    def _ledger(self) -> Ledger:
        from tundish.store.ledger import Ledger

        return Ledger(self._workspace.store)
