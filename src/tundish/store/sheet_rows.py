"""The rows of a price list: CSV in whatever encoding and with whatever delimiter, XLSX and ODS; a few hundred at a time."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count, islice, zip_longest
from pathlib import Path
from typing import Any, Final, NamedTuple

from tundish.store.packed import OLD, CannotReadListError, check_lock, check_packed, letters_of

MOST_BYTES: Final = 60_000_000
MOST_ROWS: Final = 2_000_000
MOST_CELL: Final = 10_000
"""Characters of one cell; a price list never has more."""
MOST_COLUMNS: Final = 500
_TOO_LONG: Final = f"has more than {MOST_CELL:,} characters; is a quotation mark missing?"
_DELIMITERS: Final = ";\t,|"
_CHUNK: Final = 1 << 16
_ZIP: Final = b"PK\x03\x04"
_FEW: Final = 400
"""Rows read together: most of what is asked of a row is asked of a column of these at once, and no list is held whole."""
Few = tuple[int, list[list[Any]]]
"""Rows as the reader gives them, with the number of the first."""


class Cells(NamedTuple):
    """What stands in a column, and of what kinds it is."""

    kinds: frozenset[type]
    cells: Sequence[Any]

    def words(self) -> list[str]:
        """All of it as words."""
        return list(map(str.strip if self.kinds == {str} else words_of, self.cells))


@dataclass(frozen=True, slots=True)
class Block:
    """Rows that follow one another, blank ones too, as columns; `first` is the number of the first, from 1."""

    first: int
    count: int
    columns: tuple[Cells, ...]

    def column(self, place: int | None) -> Cells:
        """One column; blanks where there is none."""
        if place is None or place >= len(self.columns):
            return Cells(frozenset({str}), ("",) * self.count)
        return self.columns[place]

    def row(self, place: int) -> tuple[str, ...]:
        """A row, from 0, as words."""
        return tuple(words_of(column.cells[place]) for column in self.columns)

    def after(self, place: int) -> Block:
        """The rows after one."""
        begin = place + 1
        return Block(self.first + begin, self.count - begin, tuple(_cells(column.cells[begin:]) for column in self.columns))


def blocks_of(path: Path) -> Iterator[Block]:
    """Every row, a few hundred together; what the file is, is seen from its bytes, not from its name.

    Raises CannotReadListError in the middle where the file turns out to be no price list.
    """
    head = _head(path)
    made = _sheet_blocks(path, packed=head.startswith(_ZIP)) if head.startswith((_ZIP, OLD)) else _text_blocks(path, head)
    for first, rows in made:
        if first + len(rows) - 1 > MOST_ROWS:
            raise CannotReadListError(path, f"it has more than {MOST_ROWS:,} rows; split it")
        if max(map(len, rows)) > MOST_COLUMNS:
            number = next(number for number, cells in enumerate(rows, first) if len(cells) > MOST_COLUMNS)
            raise CannotReadListError(path, f"row {number} has more than {MOST_COLUMNS} columns")
        block = Block(first, len(rows), tuple(map(_cells, zip_longest(*rows, fillvalue=""))))
        if max(map(_longest, block.columns), default=0) > MOST_CELL:
            _refuse_long(path, block)
        yield block


def words_of(cell: object) -> str:
    """What stands in a cell, as words; a number as it would be typed."""
    if type(cell) is str:
        return cell.strip()
    return f"{cell:.10g}" if type(cell) is float else "" if cell is None else str(cell).strip()


def _cells(cells: Sequence[Any]) -> Cells:
    return Cells(frozenset(map(type, cells)), cells)


def _longest(column: Cells) -> int:
    """No fewer characters than any cell has; a number is never long. Those of all together are few enough as a rule."""
    if column.kinds == {str}:
        together = len("".join(column.cells))
        return together if together <= MOST_CELL else max(map(len, column.cells))
    return max([len(cell) for cell in column.cells if type(cell) is str], default=0) if str in column.kinds else 0


def _refuse_long(path: Path, block: Block) -> None:
    """Refuse the first cell that is too long; the blanks round what stands in it are not counted."""
    for place in range(block.count):
        for column, words in enumerate(block.row(place), 1):
            if len(words) > MOST_CELL:
                raise CannotReadListError(path, f"row {block.first + place}, column {letters_of(column)} {_TOO_LONG}")


def _head(path: Path) -> bytes:
    try:
        size = path.stat().st_size
        with path.open("rb") as file:
            head = file.read(_CHUNK)
    except OSError as fault:
        raise CannotReadListError(path, (fault.strerror or str(fault)).lower()) from fault
    if not head:
        raise CannotReadListError(path, "it is empty")
    if size > MOST_BYTES:
        raise CannotReadListError(path, f"it is larger than {MOST_BYTES // 1_000_000} MB")
    if head.startswith(b"%PDF"):
        raise CannotReadListError(path, "it is a PDF, whatever its name says; ask the supplier for a spreadsheet")
    return head


def _sheet_blocks(path: Path, *, packed: bool) -> Iterator[Few]:
    import python_calamine

    if packed:
        check_packed(path)
    else:
        check_lock(path)
    try:
        with path.open("rb") as file:
            book = python_calamine.CalamineWorkbook.from_filelike(file)
            sheet = next((one for name in book.sheet_names if (one := book.get_sheet_by_name(name)).height), None)
            if sheet is None:
                raise CannotReadListError(path, "no sheet of it has anything on it")
            first = sheet.start[0] if sheet.start else 0
            yield from _few_by_few(sheet.iter_rows(), first + 1)
    except python_calamine.PasswordError as fault:
        raise CannotReadListError(path, "it is locked with a password; save a copy without one") from fault
    except (python_calamine.CalamineError, OSError, ValueError) as fault:
        raise CannotReadListError(path, f"it is not a sound spreadsheet ({str(fault).splitlines()[0][:100]})") from fault


def _text_blocks(path: Path, head: bytes) -> Iterator[Few]:
    encoding = _encoding(path, head)
    if b"\x00" in head and not encoding.startswith("utf-16"):
        raise CannotReadListError(path, "it is neither text nor a spreadsheet")
    with path.open(encoding=encoding, newline="") as file, _limit():
        lines = csv.reader(file, delimiter=_delimiter(head.decode(encoding, "ignore")))
        read = count(1)
        try:
            yield from _few_by_few((line for line, _ in zip(lines, read, strict=False)), 1)
        except csv.Error as fault:
            why = f"a cell {_TOO_LONG}" if "limit" in str(fault) else str(fault)
            raise CannotReadListError(path, f"row {next(read)}: {why}") from fault
        except UnicodeDecodeError as fault:
            raise CannotReadListError(path, f"it is not sound text (byte {fault.start:,})") from fault


def _few_by_few(rows: Iterator[list[Any]], first: int) -> Iterator[Few]:
    while few := list(islice(rows, _FEW)):
        yield first, few
        first += len(few)


@contextmanager
def _limit() -> Iterator[None]:
    before = csv.field_size_limit(MOST_CELL * 4)
    try:
        yield
    finally:
        csv.field_size_limit(before)


def _encoding(path: Path, head: bytes) -> str:
    """UTF-8 with or without a mark, UTF-16 with one, else the Windows code page that merchants' systems write."""
    if head.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    try:
        with path.open(encoding="utf-8-sig") as file:
            while file.read(_CHUNK):
                pass
    except UnicodeDecodeError:
        return "cp1252"
    return "utf-8-sig"


def _delimiter(text: str) -> str:
    """The sign that parts the most cells evenly in the first rows."""
    lines = [line[:MOST_CELL] for line in text.splitlines()[:30] if line.strip()]
    rows = {sign: [len(next(csv.reader([line], delimiter=sign), [])) for line in lines] for sign in _DELIMITERS}
    return max(_DELIMITERS, key=lambda sign: sum(count > 1 and count == max(rows[sign]) for count in rows[sign]))
