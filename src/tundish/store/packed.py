"""What is looked at before a spreadsheet is given to its reader: locks, what would unpack to something huge, and cells strewn too far."""

from __future__ import annotations

import re
import zipfile
import zlib
from pathlib import Path
from typing import IO, Final

from tundish.errors import TundishError

OLD: Final = b"\xd0\xcf\x11\xe0"
MOST_UNPACKED: Final = 400_000_000
MOST_RATIO: Final = 300
MOST_SPREAD: Final = 20_000_000
"""Cells from the first to the last row and column of a sheet: the reader takes memory for every one, empty or not."""
_FREE_SPREAD, _BYTES_A_CELL = 4_000_000, 4
"""Cells that any sheet may reach over, and the bytes that answer for each one more: a small file does not take much memory."""
_SMALL: Final = 1 << 20
_CHUNK: Final = 1 << 17
_LONGEST_MARK: Final = 1 << 20
_PLAIN_ROWS, _PLAIN_COLUMNS = 99_999, 26
_STRANGE: Final = (
    (b"<c", re.compile(rb'<c(?! r="[A-Z]\d{1,5}"|[A-Za-z])')),
    (b":", re.compile(rb":(?:c|row)[\s/>]")),
    (b"!", re.compile(rb"<!")),
)
"""A cell beyond the plain ones, or that does not say where it stands; another space of names; a remark: each by its sign first."""
_PLAIN_ROW: Final = re.compile(rb'<row r="\d{1,5}"')
_ROW_OR_CELL: Final = re.compile(
    rb"""<(?:\w+:)?(row|c)(?=[\s/>])(?:(?:"[^"]*"|'[^']*'|[^<>"'])*?\sr\s*=\s*["']([A-Za-z]*)(\d*))?""",
)
_DAMAGED: Final = (zipfile.BadZipFile, zlib.error, OSError, EOFError, ValueError, RuntimeError)


class CannotReadListError(TundishError):
    """A price list cannot be read: which, why, and what to do."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(f"{path.name} cannot be taken in: {why}{'' if why.endswith('?') else '.'} Nothing was changed.")


def check_lock(path: Path) -> None:
    """A workbook with a password is an old-style file that holds the locked one as a stream of that name ([MS-OFFCRYPTO] 2.3.4)."""
    with path.open("rb") as file:
        locked = file.read(len(OLD)) == OLD and "EncryptedPackage".encode("utf-16-le") in file.read()
    if locked:
        raise CannotReadListError(path, "it is locked with a password; save a copy without one")


def check_packed(path: Path) -> None:
    """A spreadsheet is a packed folder: one that would unpack to something huge, or whose cells are strewn too far, is not read."""
    try:
        with zipfile.ZipFile(path) as packed:
            parts = packed.infolist()
            _check_sizes(path, parts)
            if "xl/workbook.bin" in {part.filename.lower() for part in parts}:
                raise CannotReadListError(path, "it is a binary workbook; save it as XLSX")
            for part in parts:
                with packed.open(part) as file:
                    _check_spread(path, file, min(MOST_SPREAD, _FREE_SPREAD + part.file_size // _BYTES_A_CELL))
    except _DAMAGED as fault:
        raise CannotReadListError(path, "it is damaged: it cannot be unpacked") from fault


def letters_of(column: int) -> str:
    """A column, from 1, as spreadsheets name it: A, Z, AA."""
    made = ""
    while column > 0:
        column, letter = divmod(column - 1, 26)
        made = chr(65 + letter) + made
    return made


def _check_sizes(path: Path, parts: list[zipfile.ZipInfo]) -> None:
    whole = sum(part.file_size for part in parts)
    if whole > MOST_UNPACKED or any(part.file_size > MOST_RATIO * max(part.compress_size, 1) and part.file_size > _SMALL for part in parts):
        raise CannotReadListError(path, f"it would unpack to {whole / 1e6:,.0f} MB; no honest price list does")


def _check_spread(path: Path, file: IO[bytes], most: int) -> None:
    """Refuse a part with a row and a column so far out that there are too many between; its rows need not be in order."""
    row = column = rows = columns = 0
    rest, remarks = b"", False
    while chunk := file.read(_CHUNK):
        text = rest + chunk
        whole = max(text.rfind(b"<"), text.rfind(b">") + 1)
        text, rest = text[:whole], text[whole:]
        if len(rest) > _LONGEST_MARK:
            if rest.startswith(b"<"):
                raise CannotReadListError(path, "it is not a sound spreadsheet (a mark of it is longer than a million signs)")
            rest = b""
        if not any(sign in text and each.search(text) for sign, each in _STRANGE) and _ends_plain(text):
            row, column = _PLAIN_ROWS, _PLAIN_COLUMNS
            rows, columns = max(rows, row), max(columns, column)
            continue
        remarks = remarks or b"<!" in text
        for what, letters, digits in _ROW_OR_CELL.findall(text):
            said = int(digits[:9] or 0)
            if what == b"row":
                # What stands in a remark is no row: then numbers are taken never to go down.
                row, column = (max(row + 1, said), column) if remarks else (said or row + 1, 0)
            else:
                row, column = said or row, _place(letters) or column + 1
            rows, columns = max(rows, row), max(columns, column)
            if rows * columns > most:
                where = f"row {rows:,} and column {letters_of(columns)}"
                raise CannotReadListError(path, f"its cells reach to {where}: take out what stands far from the rest, and save it again")


def _ends_plain(text: bytes) -> bool:
    """Whether the last row is a plain one: the next cells may be of it, those before say themselves where they stand."""
    last = text.rfind(b"<row")
    return last < 0 or _PLAIN_ROW.match(text, last) is not None


def _place(letters: bytes) -> int:
    """The number of a column, from 1; 0 for no letters."""
    number = 0
    for letter in letters[:9].upper():
        number = number * 26 + letter - 64
    return number
