"""The catalogue's tables as a workbook, or as a folder of CSV files, and back; what is written reads the same again."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Final

from tundish.catalogue.sheets import NAMES, Sheets, money_words
from tundish.errors import TundishError
from tundish.store.packed import CannotReadListError, check_lock, check_packed

_RUN: Final = re.compile(r"'*[=+\-@\t\r]")
"""What a spreadsheet opening a CSV file would run as a formula."""
_ESCAPED: Final = re.compile(r"_x([0-9A-Fa-f]{4})_")
_MONEY: Final = frozenset({"price", "carriage", "free_above"})


class CannotWriteError(TundishError):
    """A catalogue could not be written."""


def write_catalogue(sheets: Sheets, path: Path) -> None:
    """Write tables to an XLSX file, or into a folder as CSV files. Raises CannotWriteError."""
    try:
        if path.suffix.lower() == ".xlsx":
            _write_workbook(sheets, path)
        else:
            path.mkdir(parents=True, exist_ok=True)
            for name, lines in sheets.items():
                with (path / f"{name}.csv").open("w", encoding="utf-8-sig", newline="") as file:
                    csv.writer(file).writerows([_guarded(cell) for cell in line] for line in lines)
    except OSError as fault:
        raise CannotWriteError(f"{path.name} was not written: {(fault.strerror or str(fault)).lower()}.") from fault


def read_catalogue(path: Path) -> Sheets:
    """The tables of an XLSX file, or of a folder of CSV files. Raises CannotReadListError."""
    if path.is_dir():
        return {name: _csv_lines(path / f"{name}.csv") for name in NAMES if (path / f"{name}.csv").is_file()}
    return _workbook_lines(path)


def _csv_lines(path: Path) -> list[list[str]]:
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            return [[_bare(cell) for cell in line] for line in csv.reader(file)]
    except (OSError, UnicodeDecodeError, csv.Error) as fault:
        raise CannotReadListError(path, f"it is not sound text ({fault})") from fault


def _guarded(cell: str) -> str:
    return f"'{cell}" if _RUN.match(cell) and not re.fullmatch(r"-?[\d.]+", cell) else cell


def _bare(cell: str) -> str:
    return cell[1:] if cell.startswith("'") and _RUN.match(cell) else cell


def _write_workbook(sheets: Sheets, path: Path) -> None:
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.utils.exceptions import IllegalCharacterError

    book = Workbook(write_only=True)
    for name, lines in sheets.items():
        sheet = book.create_sheet(name)
        for line in lines:
            cells = []
            for words in line:
                try:
                    cell = WriteOnlyCell(sheet, _ESCAPED.sub(r"_x005F_x\1_", words))
                except IllegalCharacterError as fault:
                    raise CannotWriteError(f"{name} has a sign that no spreadsheet can hold, in: {words[:40]!r}.") from fault
                cell.data_type = "s"  # never a formula, whatever it begins with
                cells.append(cell)
            sheet.append(cells)
    book.save(path)


def _workbook_lines(path: Path) -> Sheets:
    import python_calamine

    check_lock(path)
    check_packed(path)
    try:
        with path.open("rb") as file:
            book = python_calamine.CalamineWorkbook.from_filelike(file)
            return {name: _sheet_lines(book.get_sheet_by_name(name).to_python(skip_empty_area=False)) for name in book.sheet_names}
    except python_calamine.PasswordError as fault:
        raise CannotReadListError(path, "it is locked with a password; save a copy without one") from fault
    except (python_calamine.CalamineError, OSError, ValueError) as fault:
        raise CannotReadListError(path, f"it is not a sound spreadsheet ({str(fault).splitlines()[0][:100]})") from fault


def _sheet_lines(rows: Iterable[Sequence[object]]) -> list[list[str]]:
    lines: list[list[str]] = []
    for cells in rows:
        heads = lines[0] if lines else [""] * len(cells)
        lines.append([_words(cell, head) for cell, head in zip(cells, heads, strict=True)])
    return lines


def _words(cell: object, head: str) -> str:
    """A cell as it would have been typed: a price that a spreadsheet made a number has its pence again."""
    if isinstance(cell, int | float) and not isinstance(cell, bool):
        plain = f"{cell:.10g}"
        return money_words(Decimal(plain)) if head in _MONEY else plain
    if isinstance(cell, datetime | date):
        return cell.isoformat()[:10]
    return str(cell) if cell is not None else ""
