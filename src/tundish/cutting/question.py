"""A cut list asked for outside any job: read from plain data, with every fault named by its row and column.

Plain data is `{kind, kerf, trim, rotate, stock: [{length | w, h, cost, qty, offcut}], pieces: [{length | w, h, qty, mark, mitres}]}`,
mm and whole pence; `qty` null is as many as needed. `mitres` of a bar's two ends are cut at 45 degrees, the length is then over the
long points.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from tundish.cutting.plan import BadCutError, Bar, BarPlan, Piece, Sheet, SheetPlan

LONGEST: Final = 100_000.0
"""Nothing in a bathroom is longer than a hundred metres: from memory; a longer one is a slip of the unit."""
MOST_PIECES: Final = 100_000
"""Pieces in one list: more is a slip of the keyboard, and no plan of it could be read."""
MOST_PENCE: Final = 10**9
_MOST_ROWS: Final = 110_000
_MOST_SAID: Final = 20
_SHORT: Final = 40

Row = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Question:
    """What is to be cut from what: bars, or sheets with their trim."""

    pieces: tuple[Piece, ...]
    stock: tuple[Bar, ...] | tuple[Sheet, ...]
    kerf: float
    trim: float = 0.0

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """The stock, where it is sheets."""
        return tuple(one for one in self.stock if isinstance(one, Sheet))

    @property
    def bars(self) -> tuple[Bar, ...]:
        """The stock, where it is bars."""
        return tuple(one for one in self.stock if isinstance(one, Bar))


class BadQuestionError(BadCutError):
    """A list that cannot be cut; `faults` are sentences, each naming its row and column."""

    def __init__(self, faults: Sequence[str]) -> None:
        self.faults = tuple(faults)
        more = len(faults) - _MOST_SAID
        super().__init__("\n".join((*faults[:_MOST_SAID], *((f"and {more} more",) if more > 0 else ()))))


def question(data: object) -> Question:
    """The question that plain data asks; raises BadQuestionError with every fault found, nothing half done."""
    if not isinstance(data, Mapping):
        raise BadQuestionError(("the list should be an object with pieces and stock",))
    reader = _Reader(data)
    made = reader.read()
    if reader.faults or made is None:
        raise BadQuestionError(reader.faults)
    return made


def answer(plan: BarPlan | SheetPlan) -> dict[str, object]:
    """A plan as plain data: which stock, by its place in the list, and which pieces; with cost, bound and whether it is proven."""
    if isinstance(plan, BarPlan):
        rows: list[dict[str, object]] = [{"stock": cut.bar, "cuts": list(cut.pieces)} for cut in plan.cuts]
    else:
        rows = [
            {"stock": cut.sheet, "places": [[one.piece, *map(_plain, (one.x, one.y, one.length, one.width))] for one in cut.places]}
            for cut in plan.cuts
        ]
    made: dict[str, object] = {"plan": rows, "cost": plan.cost_pence, "bound": plan.bound_pence, "proven": plan.proven}
    return made | ({"unplaced": list(plan.unplaced)} if plan.unplaced else {})


def _plain(value: float) -> float:
    whole = round(value, 4)
    return int(whole) if whole == int(whole) else whole


class _Reader:
    """Reads one question and gathers what is wrong with it."""

    def __init__(self, data: Row) -> None:
        self.faults: list[str] = []
        self._data = data
        kind = data.get("kind", "2d" if self._flat("pieces") or self._flat("stock") else "1d")
        if kind not in ("1d", "2d"):
            self.faults.append(f"kind should be 1d or 2d, not {kind!r}")
        self._sides = ("w", "h") if kind == "2d" else ("length",)

    def read(self) -> Question | None:
        kerf, trim = self._size(self._data, "kerf", "the saw", least=0.0), self._size(self._data, "trim", "the sheets", least=0.0)
        turn = self._data.get("rotate", True) is not False
        pieces = tuple(self._pieces(kerf, turn=turn))
        stock = tuple(self._stock(trim))
        count = sum(piece.count for piece in pieces)
        if count > MOST_PIECES:
            self.faults.append(f"pieces, qty: {count} pieces in all; at most {MOST_PIECES} can be planned at once")
        bars = tuple(one for one in stock if isinstance(one, Bar))
        return Question(pieces, bars or tuple(one for one in stock if isinstance(one, Sheet)), kerf, trim)

    def _flat(self, name: str) -> bool:
        rows = self._data.get(name)
        return isinstance(rows, Sequence) and any("w" in row or "h" in row for row in rows if isinstance(row, Mapping))

    def _rows(self, name: str) -> Iterator[tuple[str, Row]]:
        rows = self._data.get(name)
        if not isinstance(rows, Sequence) or isinstance(rows, str):
            self.faults.append(f"{name} should be a list")
            return
        if len(rows) > _MOST_ROWS:
            self.faults.append(f"{name}: {len(rows)} rows; at most {_MOST_ROWS} can be read")
            return
        for place, row in enumerate(rows, 1):
            if isinstance(row, Mapping):
                yield f"{name} row {row.get('row', place)}", row
            else:
                self.faults.append(f"{name} row {place} should be an object")

    def _pieces(self, kerf: float, *, turn: bool) -> Iterator[Piece]:
        for name, row in self._rows("pieces"):
            sizes = [self._size(row, side, name) for side in self._sides]
            count = self._count(row, "qty", name, 1) or 0
            for side, size in zip(self._sides, sizes, strict=True):
                if 0 < size < kerf:
                    self.faults.append(f"{name}, {side}: {size:g} is narrower than the saw's kerf, {kerf:g}")
            if min(sizes) > 0:
                width = sizes[1] if len(sizes) > 1 else 0.0
                mitres = 0 if width else self._count(row, "mitres", name, 0, 2) or 0
                turned = row.get("rotate", turn) is not False
                yield Piece(str(row.get("mark", name)), sizes[0], count, width=width, turn=turned, mitres=mitres)

    def _stock(self, trim: float) -> Iterator[Bar | Sheet]:
        for name, row in self._rows("stock"):
            sizes = [self._size(row, side, name) for side in self._sides]
            cost, count = self._count(row, "cost", name, 0, MOST_PENCE) or 0, self._count(row, "qty", name, None)
            squared = self._size(row, "squaring", name, least=0.0)
            offcut, label = bool(row.get("offcut", False)), str(row.get("mark", name))
            if min(sizes) <= 0:
                continue
            usable = [size - squared - 2 * trim for size in sizes]
            if min(usable) <= 0:
                self.faults.append(f"{name}, {self._sides[usable.index(min(usable))]}: nothing is left after trim and squaring the end")
            elif len(sizes) > 1:
                yield Sheet(sizes[0] - squared, sizes[1] - squared, cost, count, label, offcut)
            else:
                yield Bar(sizes[0] - squared, cost, count, label, offcut)

    def _size(self, row: Row, column: str, name: str, least: float | None = None) -> float:
        value = row.get(column, least)
        if isinstance(value, bool) or not isinstance(value, int | float):
            said = "is missing" if value is None else f"should be a number of mm, not {_short(value)}"
            self.faults.append(f"{name}, {column} {said}" if value is None else f"{name}, {column}: {said}")
            return 0.0
        if not math.isfinite(value) or value < 0 or (value == 0 and least is None):
            self.faults.append(
                f"{name}, {column}: should be {'nought or more' if least is not None else 'more than nought'}, not {value:g}"
            )
            return 0.0
        if value > LONGEST:
            self.faults.append(f"{name}, {column}: {value:g} mm is longer than anything that is sawn; is the unit right?")
            return 0.0
        return float(value)

    def _count(self, row: Row, column: str, name: str, missing: int | None, most: int = MOST_PIECES) -> int | None:
        value = row.get(column, missing)
        if value is None:
            return missing
        if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= most:
            self.faults.append(f"{name}, {column}: should be a whole number from 0 to {most}, not {_short(value)}")
            return missing
        return value


def _short(value: object) -> str:
    words = repr(value)
    return words if len(words) <= _SHORT else f"{words[:_SHORT]}…"
