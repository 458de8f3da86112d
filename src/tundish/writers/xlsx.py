"""A paper as a workbook: a sheet for each table, with real numbers, sums as formulas, and ready to print.

What a user typed is always a string, never a formula. Sums are SUM; where headings across carry sums of their own, these and
the total are SUBTOTAL, which leaves other subtotals out, so that nothing counts twice. The same paper gives the same bytes.
"""

from __future__ import annotations

import re
import zipfile
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Final

from tundish.documents.block import Column, Document, Sketch, Sums, Table
from tundish.writers.safe import one_line, write_whole
from tundish.writers.tables import in_order, named_tables
from tundish.writers.text import lines_of
from tundish.writers.xlsx_sheet import Head, fill_sheet, fill_words

if TYPE_CHECKING:
    from openpyxl import Workbook

WORDS: Final = "Paper"
"""The sheet with what is on the paper besides its tables."""
SUMS: Final = "Sums"
"""The sheet of sums that belong to no table."""
_SUMMED: Final = (Column("What"), Column("£", "money"))
_LONGEST: Final = 31
_NOT_IN_A_NAME: Final = re.compile(r"[\\/*?:\[\]]+")
_STAMP: Final = (2000, 1, 1, 0, 0, 0)
_TIMES: Final = re.compile(rb"<dcterms:(created|modified)[^>]*>[^<]*</dcterms:\1>")


def write_xlsx(document: Document, path: Path, printed: str) -> None:
    """Write the paper to a file as a workbook; `printed` is the time that stands in its head.

    Raises:
        CouldNotWriteError: the file could not be written; what was there is untouched.
    """
    write_whole(path, xlsx_bytes(document, printed))


def xlsx_bytes(document: Document, printed: str) -> bytes:
    """The paper as the bytes of a workbook."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    book.properties.title = one_line(f"{document.title} {document.number}")
    book.properties.creator = one_line(document.sender)
    book.properties.language = "en-GB"
    book.calculation.fullCalcOnLoad = True
    _fill(book, document, printed)
    kept = BytesIO()
    book.save(kept)
    return _undated(kept.getvalue())


def _fill(book: Workbook, document: Document, printed: str) -> None:
    lines = tuple(
        line
        for line in (
            one_line(document.sender),
            one_line(document.subtitle),
            f"Printed {one_line(printed)}" if printed else "",
        )
        if line
    )
    demo = "DEMO: " if document.demo else ""
    title = one_line(f"{demo}{document.title} {document.number}".strip())
    taken: set[str] = set()
    sums = [block for block in in_order(document.blocks) if isinstance(block, Sums)]
    alone = [(SUMS, Table(_SUMMED, ()), each) for each in sums if each.after is None]
    under = [(name, table, next((each for each in sums if each.after is table), None)) for name, table in named_tables(document)]
    for name, table, below in (*under, *alone):
        head = Head(f"{title}: {name}" if name != document.title else title, lines, one_line(document.foot))
        fill_sheet(book.create_sheet(_sheet_name(name, taken)), table, head, below)
    words = list(lines_of(block for block in in_order(document.blocks) if not isinstance(block, Table | Sketch | Sums)))
    if words or not taken:
        head = Head(title, lines, one_line(document.foot))
        fill_words(book.create_sheet(_sheet_name(WORDS, taken)), words, head)


def _sheet_name(name: str, taken: set[str]) -> str:
    """A name no other sheet has, that spreadsheets take: 31 characters, no slash, star, colon or bracket, no apostrophe at its ends."""
    base = " ".join(_NOT_IN_A_NAME.sub(" ", name).split())[:_LONGEST].strip("' ") or "Sheet"
    if base.lower() == "history":
        base = "History list"
    kept, number = base, 2
    while kept.lower() in taken:
        kept = f"{base[: _LONGEST - len(str(number)) - 1]} {number}"
        number += 1
    taken.add(kept.lower())
    return kept


def _undated(book: bytes) -> bytes:
    """The workbook without the time it was made: same paper, same bytes."""
    kept = BytesIO()
    with zipfile.ZipFile(BytesIO(book)) as old, zipfile.ZipFile(kept, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _TIMES.sub(b"", content)
            new.writestr(zipfile.ZipInfo(name, _STAMP), content, zipfile.ZIP_DEFLATED)
    return kept.getvalue()
