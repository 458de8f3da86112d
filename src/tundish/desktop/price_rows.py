"""The price by stage as rows of a table: the stages, what is beside them, VAT and the whole."""

from __future__ import annotations

from decimal import Decimal
from typing import Final

from tundish import measure
from tundish.desktop.cells import Cell, Column, Row
from tundish.desktop.price_words import visit_words
from tundish.pricing.price import Beside, Price, StagePrice, Visit
from tundish.pricing.terms import Terms

COLUMNS: Final = (
    Column("Stage, as the client sees it"),
    Column("Materials", 84, right=True),
    Column("Mark-up", 76, right=True),
    Column("Hours", 54, right=True),
    Column("Labour", 84, right=True),
    Column("Overhead", 82, right=True),
    Column("Contingency", 96, right=True),
    Column("Rounding", 80, right=True),
    Column("Added", 84, right=True),
    Column("Price", 90, right=True),
)
ADDED: Final = ("Mark-up", "Overhead", "Contingency", "Rounding")
"""What is one column, Added, at large text, where not all of them would be in sight beside the price."""


def price_rows(price: Price, terms: Terms) -> tuple[Row, ...]:
    """Every row of the price; none where there is nothing to price. A visit has one where it comes to anything."""
    if not price.stages:
        return ()
    rows = [_stage_row(each) for each in price.stages]
    rows += [_visit_row(each) for each in price.visits if each.amount or each.by_hand]
    rows += [_beside_row(each) for each in price.beside if each.kind != "visits"]
    rows.append(_sum_row("price", "Before VAT", price.before_vat, total=True))
    if price.vat_lines:
        rows += [_sum_row("vat", each.words, each.vat if each.charged else Decimal(0)) for each in price.vat_lines]
        rows.append(_sum_row("total", "Client pays", price.total, total=True))
    if price.kept_back:
        rows.append(_sum_row("total", f"Kept back, {terms.cis}", -price.kept_back))
    return tuple(rows)


def _stage_row(stage: StagePrice) -> Row:
    cells = (
        Cell(stage.name, strong=True, glyph="half" if stage.hours.tbc else "", glyph_tone="tbc"),
        Cell(_money(stage.materials)),
        Cell(_money(stage.mark_up)),
        Cell(measure.show_hours(stage.hours.value)),
        Cell(_money(stage.labour)),
        Cell(_money(stage.overhead)),
        Cell(_money(stage.contingency)),
        Cell(_money(stage.rounding)),
        Cell(_money(stage.mark_up + stage.overhead + stage.contingency + stage.rounding)),
        Cell(_money(stage.price), strong=True),
    )
    return Row(f"stage:{stage.stage}", cells)


def _visit_row(visit: Visit) -> Row:
    """A visit; what makes up its price beside the columns is told by Where from."""
    hours = Cell(measure.show_hours(visit.again)) if visit.again else Cell()
    blank = tuple(Cell() for _ in COLUMNS[4:-1])
    return Row(f"visit:{visit.number}", (Cell(visit_words(visit)), Cell(), Cell(), hours, *blank, Cell(_money(visit.amount), strong=True)))


def _beside_row(beside: Beside) -> Row:
    words = f"Provisional: {beside.name}" if beside.kind == "provisional sum" else beside.name
    return _sum_row("carriage" if beside.kind == "carriage" else "price", words, beside.amount)


def _sum_row(key: str, words: str, amount: Decimal, *, total: bool = False) -> Row:
    blank = tuple(Cell() for _ in COLUMNS[1:-1])
    return Row(key, (Cell(words, strong=total), *blank, Cell(_money(amount), strong=total)), total=total)


def _money(amount: Decimal) -> str:
    return measure.show_money(amount, sign=False)
