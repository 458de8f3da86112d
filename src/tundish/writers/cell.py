"""How the value of a cell is shown and rounded: one answer for paper, spreadsheet, text and comma-separated files."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Context, Decimal
from typing import Final

from tundish.documents.block import Amount, CellKind, Row, Table, Value
from tundish.measure import show_money, show_number

NOTHING: Final = "Nothing on this list."
"""What a table without rows says."""
_PLACES: Final[dict[CellKind, int]] = {
    "length": 0,
    "count": 0,
    "area": 2,
    "metres": 2,
    "hours": 1,
    "money": 2,
    "number": 3,
    "percent": 1,
}
_FREE: Final = frozenset({"number", "percent"})
"""Kinds shown without the noughts at their end."""
_DIGITS: Final = 400  # more than any float or price has


def is_number(kind: CellKind) -> bool:
    """Whether the kind is set at the right."""
    return kind not in {"text", "tick", "blank"}


def rounded(value: Value, kind: CellKind) -> Decimal | None:
    """The number in a cell, rounded half up to the places its kind shows, so that what is shown adds up; None where there is none.

    Hours are rounded to halves.
    """
    if value is None or isinstance(value, str | Amount) or not is_number(kind) or not math.isfinite(value):
        return None
    exact = value if isinstance(value, Decimal) else Decimal(repr(value))
    parts = 2 if kind == "hours" else 1
    step = Decimal(1).scaleb(-_PLACES[kind] if kind != "hours" else 0)
    return (exact * parts).quantize(step, ROUND_HALF_UP, Context(prec=_DIGITS)) / parts + 0


def shown(value: Value, kind: CellKind) -> str:
    """The value as a reader sees it: 1,161, −0.50, 15 %, – for none. Ticks and blanks have no words."""
    if kind in {"tick", "blank"}:
        return ""
    if isinstance(value, str):
        return value
    if isinstance(value, Amount):
        return value.words
    if not is_number(kind):
        return show_number(_finite(value), None)
    number = rounded(value, kind)
    words = show_number(number, None if kind in _FREE else _PLACES[kind])
    return f"{words} %" if kind == "percent" and number is not None else words


def pounds(amount: Decimal, *, sign: bool = True) -> str:
    """An amount of money on its own: £1,387.00."""
    return show_money(amount if amount.is_finite() else None, sign=sign)


def boxes(value: Value) -> int:
    """How many boxes to tick a cell has: as many as its whole number says, at least one, at most eight."""
    return min(max(int(value), 1), 8) if isinstance(value, int | Decimal) else 1


def total(table: Table, column: int) -> Decimal:
    """The sum of a column as shown; groups' own sums and words are left out."""
    kind = table.columns[column].kind
    return sum((rounded(value, kind) or Decimal(0) for value in _details(table.rows, column)), Decimal(0))


def total_cells(table: Table) -> tuple[str, ...]:
    """The total row as shown: the label in the first column that is not added up, then the sums."""
    label = total_column(table)
    return tuple(
        shown(total(table, place), column.kind) if place in table.totals else table.total_label if place == label else ""
        for place, column in enumerate(table.columns)
    )


def total_column(table: Table) -> int:
    """Where the total's label goes: the first column that is not added up."""
    return next((place for place in range(len(table.columns)) if place not in table.totals), 0)


def cells_of(table: Table, row: Row) -> tuple[Value, ...]:
    """A row's cells, made as many as there are columns; a heading's missing cells are empty."""
    missing = len(table.columns) - len(row.cells)
    return row.cells[: len(table.columns)] + ("",) * missing


def _details(rows: Iterable[Row], column: int) -> Iterable[Value]:
    return (row.cells[column] for row in rows if not row.group and column < len(row.cells))


def _finite(value: float | Decimal | None) -> float | Decimal | None:
    return value if value is not None and math.isfinite(value) else None
