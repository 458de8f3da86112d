"""Materials: what do I need, and why?"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop.by_hand_row import AMOUNT, REASON, ByHandRow, by_hand_group
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.order_state import shortages, still_of
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.words import CutLabel, label
from tundish.desktop.workspace import Workspace
from tundish.documents.materials import buy_words, grouped, held
from tundish.documents.order_list import amount_words
from tundish.estimate import Estimate
from tundish.procurement.purchase import Purchase

COLUMNS: Final = (
    Column("Item", 204),
    Column("Because"),
    Column("Need", 98, right=True),
    Column("Kits", 58, right=True),
    Column("Rack", 82, right=True),
    Column("Stock", 58, right=True),
    Column("Buy", 118, right=True),
    Column("Cost, £", 92, right=True),
)
FILTERS: Final = (("all", "Everything"), ("buy", "To buy"), ("held", "Kits and stock"), ("tbc", "TBC"), ("own", "Client's own"))


class MaterialsPage(EstimatePage):
    """Every line of the materials list, by group, with its reasons."""

    help_sentences = (
        "Choose a line to see every reason for it.",
        "What kits and stock give is taken off before anything is bought.",
        "By hand: add to a line (Ins), set it or strike it out (Del), with the reason. Changes stand at the end: there they are put back.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Materials", "What do I need, and why?", workspace)
        self._filters = ChipRow("Which lines")
        self._filters.chosen.connect(self.show_again)
        self._find = QLineEdit()
        self._find.setPlaceholderText("Find a line")
        self._find.setAccessibleName("Find a line")
        self._find.setClearButtonEnabled(True)
        self._find.textChanged.connect(self.show_again)
        self.add_row(self._filter_row())
        self.table = Table("Materials", COLUMNS)
        self.table.row_chosen.connect(self.figure_asked)
        self.table.row_asked.connect(self.figure_asked)
        self.table.set_empty("Nothing needed", "Nothing here fits the filter.", "materials")
        self._by_hand = ByHandRow(workspace)
        self.table.row_chosen.connect(self._by_hand.line_chosen)
        self.table.add_asked.connect(lambda: self._by_hand.ask(AMOUNT))
        self.table.remove_asked.connect(lambda _row: self._by_hand.ask(REASON))
        card = TableCard(self.table)
        self._count, self._left, self._cost = label("", "table"), CutLabel("note", "ink2"), label("", "table")
        card.set_foot(self._foot())
        self.set_body(card)
        self.begin()

    def go_to(self, code: str) -> None:
        """Choose the line of an item, whatever was filtered."""
        self._find.clear()
        self._filters.take("all")
        self.show_again()
        self.table.choose(f"line:{code}")
        self.table.setFocus()

    def _filter_row(self) -> QWidget:
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(8, 0, 4, 0)
        row.addWidget(self._filters, 1)
        row.addWidget(self._find)
        return made

    def _foot(self) -> QWidget:
        made = QWidget()
        column, row = QVBoxLayout(made), QHBoxLayout()
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(row)
        column.addWidget(self._by_hand)
        row.setContentsMargins(12, 6, 12, 6)
        row.addWidget(self._count)
        row.addSpacing(16)
        row.addWidget(self._left)
        row.addStretch(1)
        row.addWidget(self._cost)
        return made

    def show_estimate(self, estimate: Estimate) -> None:
        """The lines that fit the filter and the words looked for, by group."""
        taken = self._filters.taken() or "all"
        purchases = estimate.buying.purchases
        self._filters.set_choices(
            tuple(Choice(key, words, str(sum(_fits(each, key) for each in purchases))) for key, words in FILTERS), taken
        )
        missing = shortages(still_of(self._workspace, estimate))
        wanted = self._find.text().strip().lower()
        groups = []
        for name, rows in grouped(estimate):
            shown = [each for each in rows if _fits(each, taken) and _has(each, wanted)]
            if shown:
                groups.append(_group(name, shown, missing))
        self._by_hand.show_items()
        self.table.set_groups((*groups, *by_hand_group(estimate.by_hand)))
        self._count.setText(f"{len(purchases)} lines, {len(grouped(estimate))} groups")
        left = [f"{amount_words(each.amount, each.item.unit)} {each.item.name.lower()}" for each in estimate.buying.left_over]
        self._left.setText(f"Left over: {', '.join(left[:2])}{f' and {len(left) - 2} more' if len(left) > 2 else ''}" if left else "")  # noqa: PLR2004
        unpriced = len(estimate.price.not_priced)
        more = f" + {unpriced} not priced" if unpriced else ""
        self._cost.setText(f"Cost, no VAT {measure.show_money(sum((each.cost for each in purchases), Decimal(0)))}{more}")


def _fits(purchase: Purchase, key: str) -> bool:
    return {
        "all": True,
        "buy": bool(purchase.picks) or not purchase.priced,
        "held": held(purchase) > 0,
        "tbc": purchase.line.amount.tbc,
        "own": purchase.line.own,
    }[key]


def _has(purchase: Purchase, wanted: str) -> bool:
    return not wanted or wanted in purchase.line.item.name.lower() or wanted in purchase.line.because.lower()


def _group(name: str, rows: list[Purchase], missing: Mapping[str, int]) -> Group:
    cost = sum((each.cost for each in rows), Decimal(0))
    unpriced = sum(not each.priced for each in rows)
    tbc = sum(each.line.amount.tbc for each in rows)
    open_ = "".join(f", {count} {words}" for count, words in ((tbc, "TBC"), (unpriced, "not priced")) if count)
    note = f"{len(rows)} {'line' if len(rows) == 1 else 'lines'}{open_}"
    subtotals = ((len(COLUMNS) - 1, Cell(measure.show_money(cost) if cost or not unpriced else "–", strong=True)),)
    return Group(
        name, name, tuple(_row(each, missing.get(each.line.item.code, 0)) for each in rows), note, "tbc" if open_ else "ink2", subtotals
    )


def _row(purchase: Purchase, short: int) -> Row:
    line, unit = purchase.line, purchase.line.amount.unit
    unpriced = not purchase.priced
    return Row(
        f"line:{line.item.code}",
        (
            Cell(line.item.name, strong=True, glyph="half" if line.amount.tbc else "", glyph_tone="tbc"),
            Cell(line.because, tone="ink2"),
            Cell(amount_words(line.amount.value, unit), strong=True),
            *(_held(each.value, unit) for each in (purchase.from_kits, purchase.from_rack, purchase.from_stock)),
            _buy(purchase, short),
            Cell(
                "not priced" if unpriced else measure.show_money(purchase.cost, sign=False) if purchase.cost else "–",
                tone="tbc" if unpriced else "ink",
            ),
        ),
    )


def _buy(purchase: Purchase, short: int) -> Cell:
    """What is bought; where some of it will not come, how many packs are short."""
    if short:
        return Cell(f"{buy_words(purchase)}, {short} short", tone="fails", glyph="warn", glyph_tone="fails")
    none_to_buy = not purchase.picks and purchase.priced and not purchase.line.own
    return Cell(buy_words(purchase), glyph="tick" if none_to_buy else "", glyph_tone="settled", tone="ink" if purchase.priced else "tbc")


def _held(amount: float, unit: str) -> Cell:
    return Cell(amount_words(amount, unit) if amount else "–", tone="settled" if amount else "ink2")
