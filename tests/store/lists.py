"""One price list, written as each kind of file that suppliers send."""

from __future__ import annotations

from pathlib import Path

from odf.opendocument import OpenDocumentSpreadsheet  # type: ignore[import-untyped]  # it has no types
from odf.table import Table, TableCell, TableRow  # type: ignore[import-untyped]  # it has no types
from odf.text import P  # type: ignore[import-untyped]  # it has no types
from openpyxl import Workbook

ROWS = (
    ("Able's list", "", ""),
    ("", "", ""),
    ("Product code", "Name", "Net price"),
    ("OB2024", "Strut", "12.98"),
    ("OB2027", "Strut", "8.90"),
    ("ZZ1", "Other", "4"),
)


def csv_list(path: Path, rows: tuple[tuple[str, ...], ...] = ROWS, sign: str = ",", encoding: str = "utf-8") -> Path:
    path.write_text("\n".join(sign.join(f'"{cell}"' for cell in row) for row in rows), encoding=encoding)
    return path


def xlsx_list(path: Path) -> Path:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in ROWS:
        sheet.append([float(cell) if cell.replace(".", "").isdigit() else cell for cell in row])
    sheet.merge_cells("A1:C1")
    book.save(path)
    return path


def ods_list(path: Path) -> Path:
    book, table = OpenDocumentSpreadsheet(), Table(name="Prices")
    for row in ROWS:
        line = TableRow()
        for words in row:
            cell = TableCell(valuetype="string")
            cell.addElement(P(text=words))
            line.addElement(cell)
        table.addElement(line)
    book.spreadsheet.addElement(table)
    book.save(str(path))
    return path
