"""Pricing: what do I charge, and what do I keep?"""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.inputs import InputForm
from tundish.desktop.money_bar import MoneyBar
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate
from tundish.field import must_read
from tundish.pricing.price import Price, StagePrice

COLUMNS: Final = (
    Column("Stage, as the client sees it"),
    Column("Materials", 92, right=True),
    Column("Mark-up", 84, right=True),
    Column("Hours", 64, right=True),
    Column("Labour", 92, right=True),
    Column("Contingency", 96, right=True),
    Column("Price", 96, right=True),
)
TERMS: Final = ("labour_rate", "mark_up", "contingency", "difficulty", "vat", "deposit", "boarded", "valid_days", "hours_a_day")
DATES: Final = ("quoted", "start", "boarding")


class PricingPage(EstimatePage):
    """The terms, the price by stage, and where the money goes."""

    help_sentences = ("Mark-up is on cost, margin is of price: both are shown.", "Hours come from your norms on Rates and rules.")

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Pricing", "What do I charge, and what do I keep?", workspace)
        paper = button("Quote", "paper", main=True)
        paper.clicked.connect(self._paper)
        self.add_tool(paper)
        self.form = InputForm("Terms", workspace)
        self.form.asked.connect(self._asked)
        self.table = Table("Price by stage", COLUMNS)
        self.table.row_chosen.connect(self._chosen)
        self.table.set_empty("Nothing to price yet", "Add a pan or a basin first.", "pricing")
        self._margin = label("", "note", "ink2", wrap=True)
        self._bar = MoneyBar()
        self._kept = label("", "bodyStrong", wrap=True)
        self.set_body(self._stacked())
        self.begin()
        workspace.job_opened.connect(self.form.show_all)

    def go_to(self, path: str) -> None:
        """Put the keyboard into the box of a term."""
        self.form.go_to(path)

    def _stacked(self) -> QWidget:
        self.form.add_group("Terms")
        for name in TERMS:
            self.form.input(f"terms.{name}")
        self.form.add_part(self._margin)
        self._margin.setContentsMargins(14, 2, 12, 6)
        self.form.add_group("Dates and words")
        for name in DATES:
            self.form.input(f"terms.{name}")
        self.form.input("terms.not_included", lines=3)
        card = QFrame()
        card.setProperty("kind", "card")
        inside = QVBoxLayout(card)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.addWidget(self.form)
        made = QWidget()
        column = QVBoxLayout(made)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(card, 4)
        column.addWidget(TableCard(self.table), 7)
        column.addWidget(self._bar)
        column.addWidget(self._kept)
        return made

    def _asked(self, path: str) -> None:
        self.figure_asked.emit(f"input:{path}")

    def _chosen(self, row: str) -> None:
        self.figure_asked.emit(row)

    def _paper(self) -> None:
        self._workspace.paper = "quote"
        self.page_asked.emit("paper")

    def show_estimate(self, estimate: Estimate) -> None:
        """The price by stage, where the money goes and what is kept."""
        price = estimate.price
        rows = [_stage_row(each) for each in price.stages]
        if price.carriage:
            rows.append(_sum_row("carriage", "Carriage", price.carriage))
        rows.append(_sum_row("price", "Before VAT", price.before_vat, total=True))
        if price.vat_rate:
            rows.append(_sum_row("vat", f"VAT at {price.vat_rate.normalize():f} %", price.vat))
            rows.append(_sum_row("total", "Client pays", price.total, total=True))
        self.table.set_rows(tuple(rows) if price.stages else ())
        self._margin.setText(margin_words(must_read(estimate.job.terms, "mark_up").value))
        self._bar.show_parts(_parts(price))
        self._kept.setText(kept_words(price))


def margin_words(mark_up: float) -> str:
    """Mark-up and the margin it comes to, since people mix them up."""
    margin = mark_up / (100 + mark_up) * 100
    return f"{measure.show_percent(mark_up)} mark-up on cost is {measure.show_percent(round(margin, 1))} margin of price."


def kept_words(price: Price) -> str:
    """What the trader keeps: the sum, by the hour and by the day."""
    if not price.labour_priced:
        return "Materials only: type a labour rate to see what you keep."
    each_hour = f", {measure.show_money(price.kept_an_hour)} an hour" if price.kept_an_hour is not None else ""
    each_day = f", {measure.show_money(price.kept / price.days)} a day over {price.days} days" if price.days else ""
    return f"You keep {measure.show_money(price.kept)}{each_hour}{each_day}."


def _parts(price: Price) -> tuple[tuple[str, Decimal], ...]:
    labour = sum((each.labour for each in price.stages), Decimal(0))
    mark_up = sum((each.mark_up for each in price.stages), Decimal(0))
    contingency = sum((each.contingency for each in price.stages), Decimal(0))
    parts = (
        ("Materials", price.materials_cost),
        ("Carriage", price.carriage),
        ("Mark-up", mark_up),
        ("Labour", labour),
        ("Contingency", contingency),
        ("VAT", price.vat),
    )
    return tuple(part for part in parts if part[1])


def _stage_row(stage: StagePrice) -> Row:
    cells = (
        Cell(stage.name, strong=True, glyph="half" if stage.hours.tbc else "", glyph_tone="tbc"),
        Cell(_money(stage.materials)),
        Cell(_money(stage.mark_up)),
        Cell(measure.show_hours(stage.hours.value)),
        Cell(_money(stage.labour)),
        Cell(_money(stage.contingency)),
        Cell(_money(stage.price), strong=True),
    )
    return Row(f"stage:{stage.stage}", cells)


def _sum_row(key: str, words: str, amount: Decimal, *, total: bool = False) -> Row:
    blank = tuple(Cell() for _ in COLUMNS[1:-1])
    return Row(key, (Cell(words, strong=total), *blank, Cell(_money(amount), strong=total)), total=total)


def _money(amount: Decimal) -> str:
    return measure.show_money(amount, sign=False)
