"""The tables of a paper as comma-separated values: for a merchant's system or another program.

UTF-8 with a byte order mark and CRLF line ends, so that a spreadsheet reads £ and ² right; words in quotes, numbers bare and
rounded as they are shown on paper, without thousands commas. A heading across becomes a first column "Group", and what it
leaves to be confirmed is said in every row under it; sums are left out. Words that a spreadsheet would run as a formula have
an apostrophe before them (see `safe.for_csv`). A paper without tables gives an empty file.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

from tundish.documents.block import CellKind, Document, Row, Table, Value
from tundish.writers.cell import cells_of, is_number, rounded, shown
from tundish.writers.safe import for_csv, write_whole
from tundish.writers.tables import named_tables

Cell = str | Decimal


def write_csv(document: Document, path: Path, printed: str) -> None:  # noqa: ARG001
    """Write the tables to a file; `printed` is not in it: a file for a program carries no time.

    Raises:
        CouldNotWriteError: the file could not be written; what was there is untouched.
    """
    write_whole(path, as_csv(document).encode("utf-8-sig"))


def as_csv(document: Document) -> str:
    """The tables one after the other; where there are several, each under a line with its name and after an empty line."""
    kept = io.StringIO()
    writer = csv.writer(kept, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    tables = named_tables(document)
    for place, (name, table) in enumerate(tables):
        if place:
            kept.write("\r\n")
        if len(tables) > 1:
            writer.writerow([for_csv(name)])
        writer.writerows(_rows(table))
    return kept.getvalue()


def _rows(table: Table) -> Iterator[list[Cell]]:
    """The head and the rows; columns for the group, for TBC and for notes only where there are any."""
    grouped, tbc, noted = (any(getattr(row, name) for row in table.rows) for name in ("group", "tbc", "note"))
    columns = [(place, column) for place, column in enumerate(table.columns) if column.kind not in {"tick", "blank"}]

    def line(group: str, cells: list[Cell], state: str, note: str) -> list[Cell]:
        return [*([for_csv(group)] if grouped else []), *cells, *([state] if tbc else []), *([for_csv(note)] if noted else [])]

    yield line("Group", [for_csv(column.head) for _, column in columns], "To be confirmed", "Note")
    over = Row(())
    for row in table.rows:
        if row.group:
            over = row
            continue
        values = cells_of(table, row)
        cells = [_cell(values[place], column.kind) for place, column in columns]
        note = ". ".join(filter(None, (over.note.rstrip("."), row.note)))
        yield line(over.group, cells, "TBC" if row.tbc or over.tbc else "", note)


def _cell(value: Value, kind: CellKind) -> Cell:
    number = rounded(value, kind)
    if number is not None:
        return number
    if value is None or (is_number(kind) and not isinstance(value, str)):
        return ""
    return for_csv(shown(value, kind))
