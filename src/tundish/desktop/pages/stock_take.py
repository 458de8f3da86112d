"""Stock-take: what is really there?"""

from __future__ import annotations

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
    from tundish.catalogue.item import Item
    from tundish.store.ledger import Difference, Holding

HEADS: Final = ("Item", "Where", "Kept for", "Should be", "Counted", "Why different")
NOT_COUNTED: Final = frozenset({"day", "visit"})
WHY: Final = 170
"""Least width of a box for a reason: some twenty letters."""
UNIT_NAMES: Final = {"each": "", "mm": "mm in all", "m²": "m²", "kg": "kg", "ml": "ml", "m": "m"}


class StockTakePage(Page):
    """Every line of the ledger with a box for what was counted; all are entered at once, each difference with its reason."""

    help_sentences = (
        "Type what you counted, line by line; leave a line empty that you did not count.",
        "Lengths are counted in mm in all, areas in m², in the unit that stands beside the line.",
        "Enter all takes them in at once. A difference without a reason is kept as not explained.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Stock-take", "What is really there?")
        self._workspace = workspace
        self._lines: list[tuple[Holding, Box, Box]] = []
        self._shown: tuple[tuple[Holding, Item], ...] = ()
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
        from tundish.store.ledger import Difference, Ledger

        found: list[Difference] = []
        bad = 0
        for holding, counted, why in self._lines:
            words = counted.text().strip()
            read = measure.read_number(words) if words else None
            wrong = read is not None and (read.value is None or read.value < 0)
            counted.show_bad(bad=wrong)
            bad += wrong
            if read is not None and read.value is not None and not wrong:
                found.append(Difference(holding.item, holding.place, holding.amount, read.value, why.text().strip(), holding.job))
        if bad or not found:
            self._say(f"{bad} lines are not amounts: nothing was entered." if bad else "Nothing is counted yet.")
            return
        Ledger(self._workspace.store).take_stock(tuple(found))
        self._lines = []
        self._workspace.book_has_changed()
        self._show()
        self._say(_summary(found))

    def _say(self, words: str) -> None:
        self._said.setText(words)
        self._said.show()

    def _show(self) -> None:
        """A line for all that is held, and one in the van for every other item that can be counted; boxes stay while these do."""
        from tundish.store.ledger import PLACES, Holding, Ledger

        held = tuple(each for each in Ledger(self._workspace.store).on_hand() if each.item in self._workspace.book.items)
        here = {each.item for each in held}
        items = sorted(self._workspace.book.items.values(), key=lambda one: one.name)
        others = tuple(
            Holding(item.code, PLACES[0], "", 0.0, "") for item in items if item.code not in here and item.unit not in NOT_COUNTED
        )
        shown = tuple((each, self._workspace.book.item(each.item)) for each in (*held, *others))
        if self._lines and shown == self._shown:
            return
        self._shown = shown
        typed = {(each.item, each.place, each.job): (box.text(), why.text()) for each, box, why in self._lines}
        inside = QWidget()
        inside.setProperty("kind", "clear")
        grid = QGridLayout(inside)
        grid.setContentsMargins(12, 8, 12, 8)
        grid.setColumnStretch(0, 3)
        grid.setColumnStretch(5, 2)
        for place, head in enumerate(HEADS):
            grid.addWidget(label(head, "note", "ink2"), 0, place)
        self._lines = [self._line(grid, row, each, typed) for row, each in enumerate((*held, *others), 1)]
        self._scroll.setWidget(inside)

    def _line(
        self, grid: QGridLayout, row: int, holding: Holding, typed: dict[tuple[str, str, str], tuple[str, str]]
    ) -> tuple[Holding, Box, Box]:
        item = self._workspace.book.item(holding.item)
        amount = f"{measure.show_amount(holding.amount, item.unit)} {UNIT_NAMES.get(item.unit, item.unit)}".strip()
        words = (item.name, holding.place, f"job {holding.job}" if holding.job else "free", amount)
        for place, each in enumerate(words):
            grid.addWidget(label(each, "tableStrong" if place == 0 else "table", wrap=place == 0), row, place)
        whose = f"{item.name}, {holding.place}{f', job {holding.job}' if holding.job else ''}"
        counted, why = Box(f"{whose}, counted", figure=True), Box(f"{whose}, why different")
        said = typed.get((holding.item, holding.place, holding.job), ("", ""))
        counted.setText(said[0])
        why.setText(said[1])
        counted.setMaximumWidth(look.now().px(90))
        why.setMinimumWidth(look.now().px(WHY))
        grid.addWidget(counted, row, 4)
        grid.addWidget(why, row, 5)
        return holding, counted, why


def _summary(found: list[Difference]) -> str:
    """How many lines were counted, how many differ, and how many of those nobody explained."""
    differ = [each for each in found if abs(each.counted - each.said) > 1e-6]  # noqa: PLR2004
    dark = sum(not each.why for each in differ)
    told = f"; {dark} not explained" if dark else ""
    return f"Entered: {len(found)} counted, {len(differ)} differ{told}."
