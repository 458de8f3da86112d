"""Reading the catalogue's files a row at a time: what a cell says, and what is wrong with it by file, row and words to mend.

Every reader gives a value even where it finds a fault, so that one pass names all of them; with a fault nothing is used.
"""

from __future__ import annotations

import csv
import math
import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any, Final

from tundish.field import Problem


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table, or one group of a TOML file. `place` is file and row, as "offers.csv:14"."""

    place: str
    cells: Mapping[str, str]


def read_rows(path: Path, needed: tuple[str, ...], problems: list[Problem], may: tuple[str, ...] = ()) -> tuple[Row, ...]:
    """The rows of a CSV file that has all the columns `needed`, perhaps some that it `may` have, and no other."""
    lines = csv.reader(_text(path, problems).splitlines())
    return rows_from(path.name, ((lines.line_num, cells) for cells in lines), (needed, may), problems)


def rows_from(
    name: str, lines: Iterable[tuple[int, Sequence[str]]], columns: tuple[tuple[str, ...], tuple[str, ...]], problems: list[Problem]
) -> tuple[Row, ...]:
    """The same from lines with their numbers, the head first; `columns` are those it needs and those it may have."""
    every, (needed, may) = iter(lines), columns
    head = [cell.strip() for cell in next(every, (1, ()))[1]]
    faults = [f"the column {column} is missing" for column in needed if column not in head]
    faults += [f'the column "{column}" is not known here' for column in head if column not in needed + may]
    faults += [f"the column {column} is there twice" for place, column in enumerate(head) if column in head[:place]]
    problems += [Problem(f"{name}:1", fault) for fault in faults]
    rows = []
    for number_of_line, cells in every:
        place = f"{name}:{number_of_line}"
        if not any(cells):
            continue
        if len(cells) != len(head):
            problems.append(Problem(place, f"has {len(cells)} cells, the head has {len(head)}; a comma in words needs quotes round them"))
        rows.append(Row(place, {column: cell.strip() for column, cell in zip(head, cells, strict=False)}))
    return tuple(rows)


def read_groups(path: Path, problems: list[Problem]) -> dict[str, Any]:
    """A TOML file as groups of named values; nothing, with the fault told, when it cannot be read."""
    try:
        return tomllib.loads(_text(path, problems))
    except tomllib.TOMLDecodeError as fault:
        problems.append(Problem(path.name, f"is not sound TOML: {fault}"))
        return {}


def words(row: Row, name: str, problems: list[Problem]) -> str:
    """What must not be blank."""
    given = row.cells.get(name, "")
    if not given:
        problems.append(Problem(row.place, f"{name} is blank"))
    return given


def number(row: Row, name: str, problems: list[Problem], *, signed: bool = False) -> float:
    """A finite number, more than nought unless `signed`."""
    given = row.cells.get(name, "")
    value = float(given) if _NUMBER.fullmatch(given) else math.nan
    if not math.isfinite(value):
        told = f'{name}: "{given}" is not a number such as 12.5' if given else f"{name} is blank; it needs a number"
        problems.append(Problem(row.place, told))
        return 1.0
    if value <= 0 and not signed:
        problems.append(Problem(row.place, f"{name}: {given} should be more than nought"))
    return value


def whole(row: Row, name: str, problems: list[Problem]) -> int:
    """A whole number, nought or more."""
    given = row.cells.get(name, "")
    if given.isdecimal():
        return int(given)
    problems.append(Problem(row.place, f'{name}: "{given}" is not a whole number'))
    return 0


def money(row: Row, name: str, problems: list[Problem], *, free: bool = False) -> Decimal:
    """Pounds and pence, more than nothing unless `free`."""
    given = row.cells.get(name, "")
    if not _MONEY.fullmatch(given):
        problems.append(Problem(row.place, f'{name}: "{given}" is not pounds and pence such as 12.50'))
        return Decimal(0)
    value = Decimal(given)
    if not value and not free:
        problems.append(Problem(row.place, f"{name}: £0.00 is no price; leave the row out where there is none"))
    return value


def day(row: Row, name: str, problems: list[Problem]) -> str:
    """An ISO date."""
    given = row.cells.get(name, "")
    try:
        return date.fromisoformat(given).isoformat()
    except ValueError:
        problems.append(Problem(row.place, f'{name}: "{given}" is not a day such as 2026-11-30'))
        return ""


_NUMBER: Final = re.compile(r"-?\d{1,9}(\.\d{1,9})?")
_MONEY: Final = re.compile(r"\d{1,7}\.\d{2,8}")


def _text(path: Path, problems: list[Problem]) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        problems.append(Problem(path.name, "is missing"))
    except (OSError, UnicodeDecodeError) as fault:
        problems.append(Problem(path.name, f"cannot be read as UTF-8 text: {fault}"))
    return ""
