"""The formats a paper can be written in, and writing it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from tundish.documents.block import Document
from tundish.errors import TundishError
from tundish.writers.pictures import Pictures, none_kept
from tundish.writers.safe import CouldNotWriteError, file_name


@dataclass(frozen=True, slots=True)
class Format:
    """A format: how its files end, what writes one, and what it suits."""

    ending: str
    write: Callable[[Document, Path, str, Pictures], None]
    suits: str


class NoSuchFormatError(TundishError):
    """A format was asked for by a name that is not one."""


def write(document: Document, folder: Path, formats: Iterable[str], printed: str, pictures: Pictures = none_kept) -> tuple[Path, ...]:
    """Write the paper into the folder, once in each format, and give the files; `printed` is the time that stands on them.

    `pictures` gives the bytes of photographs by their keys. The folder is made if it is not there. A file of the same name is replaced.

    Raises:
        NoSuchFormatError: before anything is written.
        CouldNotWriteError: a file could not be written; those before it are.
    """
    names = tuple(formats)
    for name in names:
        if name not in FORMATS:
            raise NoSuchFormatError(f'"{name}" is not a format a paper can be written in: those are {", ".join(FORMATS)}.')
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise CouldNotWriteError(path_of(document, folder, names[0] if names else "pdf"), fault) from fault
    for name in names:
        FORMATS[name].write(document, path_of(document, folder, name), printed, pictures)
    return tuple(path_of(document, folder, name) for name in names)


def path_of(document: Document, folder: Path, name: str) -> Path:
    """The file a paper is written to in a format."""
    return folder / f"{file_name(document.name)}.{FORMATS[name].ending}"


def _pdf(document: Document, path: Path, printed: str, pictures: Pictures) -> None:
    from tundish.writers.pdf import write_pdf

    write_pdf(document, path, printed, pictures)


def _xlsx(document: Document, path: Path, printed: str, _: Pictures) -> None:
    from tundish.writers.xlsx import write_xlsx

    write_xlsx(document, path, printed)


def _text(document: Document, path: Path, printed: str, _: Pictures) -> None:
    from tundish.writers.text import write_text

    write_text(document, path, printed)


def _csv(document: Document, path: Path, printed: str, _: Pictures) -> None:
    from tundish.writers.csv import write_csv

    write_csv(document, path, printed)


def _dxf(document: Document, path: Path, printed: str, _: Pictures) -> None:
    from tundish.writers.dxf import write_dxf

    write_dxf(document, path, printed)


def _ics(document: Document, path: Path, _printed: str, _: Pictures) -> None:
    from tundish.writers.calendar_file import write_calendar

    write_calendar(document, path)


def _html(document: Document, path: Path, printed: str, pictures: Pictures) -> None:
    from tundish.writers.html import write_html

    write_html(document, path, printed, pictures)


FORMATS: Final[dict[str, Format]] = {
    "pdf": Format("pdf", _pdf, "to print, to sign and to send"),
    "xlsx": Format("xlsx", _xlsx, "to reckon on in a spreadsheet"),
    "text": Format("txt", _text, "to paste into a message"),
    "csv": Format("csv", _csv, "for a merchant's system or another program"),
    "dxf": Format("dxf", _dxf, "for a drawing program: its drawings in millimetres, on named layers"),
    "html": Format("html", _html, "to send, and to read on a telephone"),
    "ics": Format("ics", _ics, "for a calendar: the days of a programme"),
}
"""Every format by name."""
