"""Text and files made safe: what a user typed prints as typed, is never run, and a file is written whole or not at all."""

from __future__ import annotations

import errno
import os
import re
import unicodedata
import uuid
from pathlib import Path
from typing import Final

from tundish.errors import TundishError

LONGEST_NAME: Final = 120
"""Characters in a file name without its ending; in UTF-8 and with an ending all three systems still take it."""
LONGEST_CELL: Final = 32_767
"""Characters a spreadsheet cell can hold."""
_BYTES_IN_NAME: Final = 200
_RESERVED: Final = frozenset(
    {"CON", "PRN", "AUX", "NUL", *(f"{port}{n}" for port in ("COM", "LPT") for n in "0123456789¹²³")},
)
_DIRECTIONS: Final = frozenset(map(chr, (*range(0x202A, 0x202F), *range(0x2066, 0x206A))))
"""Marks that turn the order of what follows: a name could hide what it is."""
_FORBIDDEN: Final = re.compile(r'[<>:"/\\|?*]+')
_RUN: Final = re.compile(r"\s*[=+\-@＝＋－＠]")
_SIGNED_NUMBER: Final = re.compile(r"[+-]?[\d,]+(\.\d+)?\s?%?")
_ESCAPED: Final = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_WHY: Final = {
    errno.ENOSPC: ("the disk is full", "Make room, or choose another folder"),
    errno.EDQUOT: ("your share of the disk is full", "Make room, or choose another folder"),
    errno.EROFS: ("the disk can only be read", "Choose another folder"),
    errno.ENOENT: ("the folder is not there", "Choose another folder"),
    errno.ENOTDIR: ("the folder is not a folder", "Choose another folder"),
    errno.EISDIR: ("there is a folder of that name", "Choose another name"),
    errno.ENAMETOOLONG: ("the name is too long", "Choose a folder with a shorter path"),
    errno.EACCES: ("it is open in another program, or the folder may not be written to", "Close it there, or choose another folder"),
}
_WHY[errno.EPERM] = _WHY[errno.EACCES]


class CouldNotWriteError(TundishError):
    """A file could not be written; what was there before is untouched."""

    def __init__(self, path: Path, fault: OSError) -> None:
        """Name the file, why it was not written, and what to do."""
        why, cure = _WHY.get(fault.errno or 0, (fault.strerror or str(fault) or "the system refused", "Choose another folder"))
        super().__init__(f"{path.name} was not written to {path.parent}: {why}. {cure}, and write it again.")
        self.path = path


def legible(text: str) -> str:
    """The text without what cannot be shown: control and direction marks go, tabs are spaces, line ends are new lines."""
    if text.isascii() and text.isprintable():
        return text
    composed = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    return "".join(map(_shown, composed))


def one_line(text: str) -> str:
    """The legible text on one line."""
    return " ".join(legible(text).split())


def for_spreadsheet(text: str) -> str:
    """The text as a spreadsheet cell can hold it: legible, not over length, never read as an escaped character."""
    kept = legible(text)
    if len(kept) > LONGEST_CELL:
        kept = kept[: LONGEST_CELL - 1] + "…"
    return _ESCAPED.sub("_x005F_", kept)


def for_csv(text: str) -> str:
    """The text with an apostrophe before it where a spreadsheet opening the file would run it as a formula.

    That is text starting with = + - or @ (also full width), unless it is only a signed number. The apostrophe is part of the
    field: a program that is no spreadsheet sees it.
    """
    kept = legible(text)
    return f"'{kept}" if _RUN.match(kept) and not _SIGNED_NUMBER.fullmatch(kept) else kept


def file_name(name: str) -> str:
    """A file name without ending that Windows, macOS and Linux all take; "Paper" when nothing is left of it."""
    kept = _FORBIDDEN.sub(" ", one_line(name))
    kept = _shortened(" ".join(kept.split())).strip(". ")
    if kept.split(".")[0].strip().upper() in _RESERVED:
        return f"Paper {kept}"
    return kept or "Paper"


def write_whole(path: Path, content: bytes) -> None:
    """Write a file whole: beside it first, then put in its place.

    Raises:
        CouldNotWriteError: the system refused; nothing is left half written.
    """
    real = Path(os.path.realpath(path))
    part = real.with_name(f".{uuid.uuid4().hex}.part")
    try:
        try:
            with part.open("xb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            part.replace(real)
        finally:
            part.unlink(missing_ok=True)
    except OSError as fault:
        raise CouldNotWriteError(path, fault) from fault


def _shown(character: str) -> str:
    kind = unicodedata.category(character)
    if kind in {"Zl", "Zp"} or character == "\n":
        return "\n"
    if character == "\t":
        return " "
    if kind == "Cc" or character in _DIRECTIONS:
        return ""
    return "\ufffd" if kind == "Cs" or ord(character) & 0xFFFE == 0xFFFE else character  # noqa: PLR2004


def _shortened(name: str) -> str:
    kept = name[:LONGEST_NAME]
    while len(kept.encode()) > _BYTES_IN_NAME:
        kept = kept[:-1]
    return kept
