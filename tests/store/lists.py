"""One price list, written as each kind of file that suppliers send."""

from __future__ import annotations

import re
import zipfile
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


def strange_workbook(path: Path) -> Path:
    """Merged heads, blank rows, formulas of which one came to an error, a macro, and a link to a file outside."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Prices of the year", None, None])
    sheet.merge_cells("A1:C1")
    sheet.append(["Code", "Net price", "Pack"])
    sheet.merge_cells("B2:B3")
    sheet.append([])
    for row in (["OB2024", "=1+1", 1], [], ["OB2018", "='[1]Sheet1'!A1", 4], ["OB2027", 9.9, 1]):
        sheet.append(row)
    book.save(path)
    with zipfile.ZipFile(path) as old:
        parts = {name: old.read(name) for name in old.namelist()}
    link = b'<externalLink xmlns:r="r"><externalBook r:id="rId1"/></externalLink>'
    target = b'<Relationship Id="rId1" Type="externalLinkPath" Target="file:///etc/passwd" TargetMode="External"/>'
    parts |= {
        "xl/vbaProject.bin": b"\xd0\xcf\x11\xe0 a macro that must never run",
        "xl/externalLinks/externalLink1.xml": link,
        "xl/externalLinks/_rels/externalLink1.xml.rels": b"<Relationships>" + target + b"</Relationships>",
    }
    with zipfile.ZipFile(path, "w") as new:
        for name, part in parts.items():
            new.writestr(name, re.sub(rb'<c r="B6"(.*?)<v ?/?>(?:</v>)?', rb'<c r="B6" t="e"\1<v>#REF!</v>', part))
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
