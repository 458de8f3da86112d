"""Files that would harm whoever read them: each told in words, before it is unpacked, and nothing changed."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Final

import pytest

from tests.store.lists import xlsx_list
from tundish.store import packed as packed_files
from tundish.store.keep import Store
from tundish.store.packed import CannotReadListError, letters_of
from tundish.store.price_list import look_at

LONG: Final = "x" * 10_000_000
WORDS: Final = {
    "empty": "it is empty",
    "pdf.csv": "it is a PDF",
    "bytes.csv": "neither text nor a spreadsheet",
    "broken.xlsx": "it is damaged",
    "cut.xlsx": "it is damaged",
    "locked.xlsx": "it is not a sound spreadsheet",
    "binary.xlsb": "it is a binary workbook; save it as XLSX",
    "quote.csv": "row 3: a cell has more than 10,000 characters; is a quotation mark missing?",
    "cell.csv": "row 2, column B has more than 10,000 characters",
    "cell.xlsx": "row 2, column B has more than 10,000 characters",
    "wide.csv": "row 2 has more than 500 columns",
    "words.csv": "no row names a column for the code and one for the price",
    "bomb.xlsx": "would unpack to 30 MB",
    "far.xlsx": "its cells reach to row 1,048,576 and column XFD",
    "apart.xlsx": "its cells reach to row 1,000,000 and column ZZ",
    "unnumbered.xlsx": "its cells reach to row 999,999 and column WD",
    "small.xlsx": "its cells reach to row 1,048,576 and column S",
    "later.xlsx": "its cells reach to row 1,048,576 and column",
    "remark.xlsx": "its cells reach to row",
    "mark.xlsx": "a mark of it is longer than a million signs",
}
"""What each hostile file is refused with."""


def hostile(folder: Path) -> Iterator[tuple[str, bytes]]:
    yield "empty", b""
    yield "pdf.csv", b"%PDF-1.7 and so on"
    yield "bytes.csv", bytes(range(256)) * 40
    yield "broken.xlsx", b"PK\x03\x04" + b"rubbish" * 100
    whole = xlsx_list(folder / "whole.xlsx").read_bytes()
    yield "cut.xlsx", whole[: len(whole) // 2]
    yield "locked.xlsx", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\x00" * 2000
    yield "binary.xlsb", packed(folder, {"xl/workbook.bin": b"\x00" * 100})
    yield "quote.csv", f'code,price\nB,2\nA,"{LONG}'.encode()
    yield "cell.csv", f"code,price\nA,{LONG[:11_000]}".encode()
    yield (
        "cell.xlsx",
        sheet_of(folder, f'<row r="1">{CELLS}</row><row r="2"><c r="A2"><v>1</v></c><c r="B2" t="str"><v>{LONG}</v></c></row>'),
    )
    yield "wide.csv", b"code,price\n" + b"," * 5000
    yield "words.csv", b"just some words\nand more"
    yield "bomb.xlsx", packed(folder, {"xl/worksheets/sheet1.xml": b"0" * 30_000_000})
    # Whoever reads the seven that follow whole asks the system for up to 500 GB, and is ended by it; for the fourth, half a GB.
    yield "far.xlsx", sheet_of(folder, f'<row r="1">{CELLS}</row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>')
    yield (
        "apart.xlsx",
        sheet_of(folder, f'<row r="1">{CELLS}<c r="ZZ1"><v>1</v></c></row><row r="1000000"><c r="B1000000"><v>1</v></c></row>'),
    )
    wide = "<c><v>1</v></c>" * 600
    yield (
        "unnumbered.xlsx",
        sheet_of(folder, f"<row r=\"1\">{CELLS}{wide}</row>{'<row><c/></row>' * 9}<row r = '999999' ><c><v>1</v></c></row>"),
    )
    yield "small.xlsx", sheet_of(folder, f'<row r="1">{CELLS}</row><row r="1048576"><c r="S1048576"><v>1</v></c></row>')
    plain = "".join(f'<row r="{row}"><c r="A{row}"><v>1</v></c></row>' for row in range(2, 90_000))
    yield "later.xlsx", sheet_of(folder, f'<row r="1">{CELLS}</row>{plain}<row r="1048576">{wide}</row>')
    remarked = '<c t="n"><v>1</v></c><!--<row r="1">-->' * 600
    yield "remark.xlsx", sheet_of(folder, f'<row r="999999">{remarked}</row>')
    yield "mark.xlsx", sheet_of(folder, f'<row r="1"><c t="{"x" * 3_000_000}" r="XFD1"><v>1</v></c></row>')


CELLS: Final = '<c r="A1" t="str"><v>code</v></c><c r="B1" t="str"><v>price</v></c>'


def sheet_of(folder: Path, rows: str) -> bytes:
    """A workbook with these rows on its sheet."""
    with zipfile.ZipFile(xlsx_list(folder / "plain.xlsx")) as plain:
        parts = {name: plain.read(name) for name in plain.namelist()}
    space = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    sheet = f'<worksheet xmlns="{space}"><sheetData>{rows}</sheetData></worksheet>'
    # Kept as it is: what is all alike would be told as a bomb before it is looked at.
    return packed(folder, parts | {"xl/worksheets/sheet1.xml": sheet.encode()}, zipfile.ZIP_STORED)


def packed(folder: Path, parts: Mapping[str, bytes], how: int = zipfile.ZIP_DEFLATED) -> bytes:
    with zipfile.ZipFile(folder / "packed", "w", how) as made:
        for name, body in parts.items():
            made.writestr(name, body)
    return (folder / "packed").read_bytes()


@pytest.mark.parametrize("together", [1 << 20, 1 << 10])
def test_hostile_files_are_told_in_words_and_change_nothing(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, together: int
) -> None:
    """However much of a file is looked through together."""
    monkeypatch.setattr(packed_files, "_CHUNK", together)
    before = store.book().offers
    met = {}
    for name, body in hostile(tmp_path):
        (tmp_path / name).write_bytes(body)
        with pytest.raises(CannotReadListError, match="cannot be taken in") as told:
            look_at(store, tmp_path / name, "oddmoor")
        met[name] = WORDS[name] in str(told.value) or str(told.value)
    assert met == dict.fromkeys(WORDS, True)
    assert store.book().offers == before
    with pytest.raises(CannotReadListError, match="no such file"):
        look_at(store, tmp_path / "not there.csv", "oddmoor")


@pytest.mark.parametrize(("column", "letters"), [(1, "A"), (26, "Z"), (27, "AA"), (702, "ZZ"), (703, "AAA"), (16384, "XFD")])
def test_columns_are_named_as_spreadsheets_name_them(column: int, letters: str) -> None:
    assert letters_of(column) == letters


def test_a_long_list_of_many_columns_is_read(store: Store, tmp_path: Path) -> None:
    """What is wide and long, but no more than a reader can hold, is no bomb."""
    rows = "".join(f'<row r="{row}"><c r="A{row}"><v>{row}</v></c><c r="AB{row}"><v>2</v></c></row>' for row in range(100_000, 100_200))
    (tmp_path / "l.xlsx").write_bytes(sheet_of(tmp_path, f'<row r="1">{CELLS}</row>{rows}'))
    assert look_at(store, tmp_path / "l.xlsx", "oddmoor").count("refused") == 200


def test_a_list_locked_with_a_password_is_told(store: Store) -> None:
    """The workbook is truly encrypted; its password is of no matter."""
    with pytest.raises(CannotReadListError, match="locked with a password"):
        look_at(store, Path(__file__).with_name("locked.xlsx"), "oddmoor")


def test_a_bomb_of_many_parts_is_told_before_it_is_unpacked(store: Store, tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "bomb.xlsx", "w", zipfile.ZIP_DEFLATED) as packed:
        for part in range(9):
            packed.writestr(f"xl/worksheets/sheet{part}.xml", b"0" * 50_000_000, compresslevel=1)
    with pytest.raises(CannotReadListError, match="would unpack to 450 MB"):
        look_at(store, tmp_path / "bomb.xlsx", "oddmoor")
