"""Reading a cut list of its own: JSON, or a CSV whose rows are pieces and stock, headed what, mark, length, width, count, price, turn.

The cells of a CSV may be set apart by commas, semicolons or tabs. `what` is piece, bar, sheet or offcut, and a piece where it is empty;
`length` and `width` are mm, or all in one other unit written behind each (1.2 m); `price` is pounds for one; `count` empty is one piece,
or as many of a bar or sheet as needed; `turn` no keeps a piece as it lies.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Mapping, Sequence
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any, Final

from tundish.cutting.plan import Sheet
from tundish.cutting.question import BadQuestionError, Question, question

MOST_BYTES: Final = 20_000_000
_SCALES: Final = {"": 1.0, "mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
_LENGTH: Final = re.compile(r"\s*([-+]?[\d.,]*\d[\d.,]*(?:[eE][-+]?\d+)?|[-+]?inf|nan)\s*([a-zA-Z]*)\s*")
_COLUMNS: Final = ("what", "mark", "length", "width", "count", "price", "turn")
_APART: Final = ",;\t"
_SHOWN: Final = 60
_WHATS: Final = ("piece", "bar", "sheet", "offcut")


def read_cut_file(path: Path, kerf: float, trim: float) -> Question:
    """The question of a file; `kerf` and `trim` are for a CSV, which names none. Raises BadQuestionError or OSError."""
    if path.stat().st_size > MOST_BYTES:
        raise BadQuestionError((f"{path.name} is larger than {MOST_BYTES // 1_000_000} MB",))
    text = path.read_text(encoding="utf-8-sig", errors="replace")
    if "\0" in text:
        raise BadQuestionError((f"{path.name} is no text: save the list as CSV",))
    if path.suffix.lower() == ".csv":
        return question({**_from_rows(text), "kerf": kerf, "trim": trim})
    try:
        return question(json.loads(text))
    except (ValueError, RecursionError) as fault:
        if isinstance(fault, BadQuestionError):
            raise
        raise BadQuestionError((f"{path.name} is not JSON: {fault}",)) from fault


def question_of(rows: Sequence[Mapping[str, str]], kerf: float, trim: float) -> Question:
    """The question that typed rows ask, as those of a CSV. Raises BadQuestionError."""
    return question({**_Table().read(list(enumerate(rows, 1))), "kerf": kerf, "trim": trim})


def rows_of(asked: Question) -> tuple[dict[str, str], ...]:
    """A question as rows to type in, pieces first."""
    rows = []
    for piece in asked.pieces:
        row = {"what": "piece", "mark": piece.mark, "length": f"{piece.length:g}", "count": str(piece.count)}
        rows.append(row | ({"width": f"{piece.width:g}", "turn": "" if piece.turn else "no"} if piece.width else {}))
    for one in asked.stock:
        wide = f"{one.width:g}" if isinstance(one, Sheet) else ""
        what = "offcut" if one.offcut else "sheet" if wide else "bar"
        price = "" if one.offcut and not one.cost_pence else f"{one.cost_pence / 100:.2f}"
        row = {"what": what, "mark": one.name, "length": f"{one.length:g}", "width": wide, "price": price}
        rows.append(row | {"count": "" if one.count is None else str(one.count)})
    return tuple(rows)


def _from_rows(text: str) -> dict[str, object]:
    first = text.partition("\n")[0]
    rows = csv.DictReader(io.StringIO(text), delimiter=max(_APART, key=first.count))
    heads = [str(head).strip().lower() for head in rows.fieldnames or ()]
    unknown = [head for head in heads if head not in _COLUMNS]
    if "what" not in heads or "length" not in heads or unknown:
        said = f"; {', '.join(unknown)[:_SHOWN]} is not known" if unknown else ""
        raise BadQuestionError((f"row 1: the columns should be {', '.join(_COLUMNS)}{said}",))
    rows.fieldnames = heads
    try:
        return _Table().read([(rows.line_num, row) for row in rows])
    except csv.Error as fault:
        raise BadQuestionError((f"row {rows.line_num}: {fault}",)) from fault


class _Table:
    """Reads the rows of a CSV and gathers what is wrong with them."""

    def __init__(self) -> None:
        self._faults: list[str] = []
        self._unit: tuple[str, str] | None = None

    def read(self, rows: Sequence[tuple[int, Mapping[Any, str | None]]]) -> dict[str, object]:
        """Pieces and stock as plain data, each with its row in the file."""
        flat = any((row.get("width") or "").strip() for _, row in rows)
        pieces: list[dict[str, object]] = []
        stock: list[dict[str, object]] = []
        for number, row in rows:
            if not any(cell.strip() for cell in row.values() if isinstance(cell, str)):
                continue
            what = (row.get("what") or "").strip().lower() or "piece"
            if what not in _WHATS:
                self._faults.append(f"row {number}, what: should be {', '.join(_WHATS)}, not {what!r}")
                continue
            (pieces if what == "piece" else stock).append(self._row(number, what, row, flat=flat))
        if self._faults:
            raise BadQuestionError(self._faults)
        return {"kind": "2d" if flat else "1d", "pieces": pieces, "stock": stock}

    def _row(self, number: int, what: str, row: Mapping[Any, str | None], *, flat: bool) -> dict[str, object]:
        offcut = what == "offcut"
        made: dict[str, object] = {"row": number, "offcut": offcut}
        for side, column in zip(("w", "h") if flat else ("length",), ("length", "width"), strict=False):
            made[side] = self._length(number, column, row.get(column) or "")
        count = self._count(number, row.get("count") or "")
        made["qty"] = (1 if offcut or what == "piece" else None) if count is None else count
        if what == "piece":
            made["rotate"] = (row.get("turn") or "").strip().lower() not in {"no", "n", "0", "false"}
        else:
            made["cost"] = self._pence(number, row.get("price") or "", nothing=offcut)
        mark = (row.get("mark") or "").strip()
        return made | ({"mark": mark} if mark else {})

    def _length(self, number: int, column: str, text: str) -> float:
        found = _LENGTH.fullmatch(text)
        unit = found[2].lower() if found else ""
        if not found or unit not in _SCALES:
            self._faults.append(f"row {number}, {column}: {text.strip()[:40]!r} is not a length")
            return 0.0
        unit = unit or "mm"
        here = f"row {number}, {column}"
        if self._unit is None:
            self._unit = (unit, here)
        if unit != self._unit[0]:
            self._faults.append(f"{here}: {text.strip()} is in {unit}, and {self._unit[1]} is in {self._unit[0]}: use one unit in a list")
        try:
            return float(found[1].replace(",", "")) * _SCALES[unit]
        except ValueError:
            self._faults.append(f"{here}: {text.strip()[:40]!r} is not a length")
            return 0.0

    def _count(self, number: int, text: str) -> int | None:
        if not text.strip():
            return None
        try:
            return int(text)
        except ValueError:
            self._faults.append(f"row {number}, count: {text.strip()[:40]!r} is not a whole number")
            return None

    def _pence(self, number: int, text: str, *, nothing: bool) -> int:
        try:
            pence = Decimal(text.strip().lstrip("£").replace(",", "") or ("0" if nothing else "x")) * 100
            return int(pence.to_integral_value())
        except (InvalidOperation, ValueError, OverflowError):
            self._faults.append(f"row {number}, price: {text.strip()[:40]!r} is not an amount of money")
            return 0
