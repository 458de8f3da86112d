"""Stock-take: what is really there?"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QScrollArea, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.page import Page
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace

if TYPE_CHECKING:
    from tundish.catalogue.item import Item, RackPiece
    from tundish.store.ledger import Holding

HEADS: Final = ("Item", "Where", "Kept for", "Should be", "Counted", "Why different")
NOT_COUNTED: Final = frozenset({"day", "visit"})
WHY: Final = 170
"""Least width of a box for a reason: some twenty letters."""
_NOUGHT: Final = 1e-6
_BY: Final = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)
UNIT_NAMES: Final = {"each": "", "mm": "mm in all", "m²": "m²", "kg": "kg", "ml": "ml", "m": "m"}


class StockTakePage(Page):
    """Every line of the ledger with a box for what was counted; all are entered at once, each difference with its reason."""

    help_sentences = (
        "Type what you counted, line by line; leave a line empty that you did not count.",
        "Lengths are counted in mm in all, areas in m², in the unit that stands beside the line.",
        "Of an offcut type its size, 700 or 640 x 400, or 0 where it is gone.",
        "Enter all takes them in at once. A difference without a reason is kept as not explained.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Stock-take", "What is really there?")
        self._workspace = workspace
        self._lines: list[tuple[Holding, Box, Box]] = []
        self._pieces: list[tuple[RackPiece, Box, Box]] = []
        self._shown: tuple[tuple[Holding | RackPiece, Item], ...] = ()
        enter = button("Enter all", "tick", main=True)
        enter.clicked.connect(self.enter)
        self.add_tool(enter)
        self._said = label("", "table", wrap=True)
        self._said.hide()
        self.add_row(self._said)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        card = QFrame()
        card.setProperty("kind", "card")
        column = QVBoxLayout(card)
        column.setContentsMargins(1, 1, 1, 1)
        column.addWidget(self._scroll)
        self.set_body(card)
        self.follow(workspace.estimate_ready, self._show)
        self._show()

    def enter(self) -> None:
        """Enter every line that was counted; with one that cannot be read nothing is entered."""
        from tundish.store.ledger import Difference, Ledger, Resized

        read = [(each, why.text().strip(), _read(counted, 1)) for each, counted, why in self._lines]
        sides = [(piece, why.text().strip(), _read(counted, 2 if piece.width else 1)) for piece, counted, why in self._pieces]
        bad = sum(sizes is None for *_, sizes in (*read, *sides))
        found = tuple(Difference(each.item, each.place, each.amount, sizes[0], why, each.job) for each, why, sizes in read if sizes)
        resized = tuple(Resized(piece.key, sizes[0], sum(sizes[1:]), why) for piece, why, sizes in sides if sizes)
        if bad or not (found or resized):
            self._say(
                f"{bad} {'line is no amount' if bad == 1 else 'lines are no amounts'}: nothing was entered."
                if bad
                else "Nothing is counted yet."
            )
            return
        whys = [each.why for each in found if abs(each.counted - each.said) > _NOUGHT]
        whys += [why for piece, why, sizes in sides if sizes and sizes != ((piece.length, piece.width) if piece.width else (piece.length,))]
        ledger = Ledger(self._workspace.store)
        ledger.take_stock(found)
        ledger.resize_pieces(resized)
        self._lines, self._pieces = [], []
        self._workspace.book_has_changed()
        self._show()
        self._say(_summary(len(found) + len(resized), whys))

    def _say(self, words: str) -> None:
        self._said.setText(words)
        self._said.show()

    def _show(self) -> None:
        """A line for all that is held, and one in the van for every other item that can be counted; boxes stay while these do."""
        from tundish.store.ledger import PLACES, Holding, Ledger

        ledger, book = Ledger(self._workspace.store), self._workspace.book
        rack = tuple(piece for piece, _ in ledger.pieces() if piece.item in book.items)
        held = tuple(each for each in ledger.on_hand() if each.item in book.items)
        here = {each.item for each in held}
        items = sorted(book.items.values(), key=lambda one: one.name)
        others = tuple(
            Holding(item.code, PLACES[0], "", 0.0, "") for item in items if item.code not in here and item.unit not in NOT_COUNTED
        )
        every: tuple[Holding | RackPiece, ...] = (*rack, *held, *others)
        shown = tuple((each, book.item(each.item)) for each in every)
        if self._lines and shown == self._shown:
            return
        self._shown = shown
        before: list[tuple[Holding | RackPiece, Box, Box]] = [*self._pieces, *self._lines]
        typed = {_of(each): (box.text(), why.text()) for each, box, why in before}
        inside = QWidget()
        inside.setProperty("kind", "clear")
        grid = QGridLayout(inside)
        grid.setContentsMargins(12, 8, 12, 8)
        grid.setColumnStretch(0, 3)
        grid.setColumnStretch(5, 2)
        for place, head in enumerate(HEADS):
            grid.addWidget(label(head, "note", "ink2"), 0, place)
        self._pieces = [(each, *self._line(grid, row, each, typed)) for row, each in enumerate(rack, 1)]
        self._lines = [(each, *self._line(grid, row, each, typed)) for row, each in enumerate((*held, *others), 1 + len(rack))]
        self._scroll.setWidget(inside)

    def _line(
        self, grid: QGridLayout, row: int, each: Holding | RackPiece, typed: dict[tuple[str, str, str], tuple[str, str]]
    ) -> tuple[Box, Box]:
        item, (name, place, job) = self._workspace.book.item(each.item), _of(each)
        words = (item.name, place, f"job {job}" if job else "free", _should_be(each, item))
        for column, word in enumerate(words):
            grid.addWidget(label(word, "tableStrong" if column == 0 else "table", wrap=column == 0), row, column)
        whose = f"{item.name}, {place}{f', job {job}' if job else ''}"
        counted, why = Box(f"{whose}, counted", figure=True), Box(f"{whose}, why different")
        said = typed.get((name, place, job), ("", ""))
        counted.setText(said[0])
        why.setText(said[1])
        counted.setMaximumWidth(look.now().px(90))
        why.setMinimumWidth(look.now().px(WHY))
        grid.addWidget(counted, row, 4)
        grid.addWidget(why, row, 5)
        return counted, why


def _of(each: Holding | RackPiece) -> tuple[str, str, str]:
    """What a line is of, where it is and whose; a piece of the rack by its key."""
    key = getattr(each, "key", "")
    return each.item, f"{each.place}, {key}" if key else each.place, each.job


def _should_be(each: Holding | RackPiece, item: Item) -> str:
    from tundish.store.ledger import Holding

    if isinstance(each, Holding):
        return f"{measure.show_amount(each.amount, item.unit)} {UNIT_NAMES.get(item.unit, item.unit)}".strip()
    return measure.show_length(each.length) + (f" × {measure.show_length(each.width)}" if each.width else " mm")


def _read(box: Box, most: int) -> tuple[float, ...] | None:
    """What was typed: nothing, an amount, or up to `most` sides; None, and the box says so, where it is no such thing."""
    words = [each for each in _BY.split(box.text().strip()) if each] if most > 1 else [box.text().strip()] * bool(box.text().strip())
    read = [measure.read_number(each).value for each in words]
    sizes = tuple(value for value in read if value is not None and value >= 0)
    right = len(sizes) == len(read) and (len(read) in {0, most} or (most > 1 and sizes == (0.0,)))
    box.show_bad(bad=not right)
    return sizes if right else None


def _summary(counted: int, whys: list[str]) -> str:
    """How many lines were counted, how many differ, and how many of those nobody explained."""
    dark = whys.count("")
    told = f"; {dark} not explained" if dark else ""
    return f"Entered: {counted} counted, {len(whys)} differ{told}."
