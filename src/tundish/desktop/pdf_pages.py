"""Pages of a PDF as pictures. Heavy parts are brought in when the first page is wanted."""

from __future__ import annotations

from dataclasses import dataclass
from threading import Lock
from typing import Final

from PySide6.QtGui import QImage

from tundish.documents.block import Document
from tundish.store import logo
from tundish.store.keep import Store
from tundish.writers.pictures import LOGO, Pictures, none_kept

_ONE_AT_A_TIME: Final = Lock()
"""The PDF engine is not to be entered by two threads."""


@dataclass(frozen=True, slots=True)
class Picture:
    """One page as a picture: its place from 0, and how many pages there are."""

    place: int
    pages: int
    image: QImage


def pictures_of(store: Store, job_id: int) -> Pictures:
    """Where the photographs of a job and the trader's logo are found, also from beside the window."""
    return lambda key: logo.kept(store) if key == LOGO else store.photograph(job_id, key)


def bytes_of(document: Document, printed: str, pictures: Pictures = none_kept) -> bytes:
    """The paper as the bytes of a PDF; `pictures` gives the bytes of its photographs."""
    from tundish.writers.pdf import pdf_bytes

    return pdf_bytes(document, printed, pictures)


def notice_of(document: Document) -> str:
    """What is to be said of a paper with letters that cannot be printed."""
    from tundish.writers.pdf_letters import notice

    return notice(document)


def picture(body: bytes, place: int, wide: int) -> Picture:
    """A page of a PDF, so many pixels wide; a place past the last gives the last page."""
    import pypdfium2  # type: ignore[import-untyped]

    with _ONE_AT_A_TIME:
        opened = pypdfium2.PdfDocument(body)
        try:
            place = max(0, min(place, len(opened) - 1))
            page = opened[place]
            bitmap = page.render(scale=wide / page.get_width(), rev_byteorder=True, prefer_bgrx=True)
            drawn = QImage(bytes(bitmap.buffer), bitmap.width, bitmap.height, bitmap.stride, QImage.Format.Format_RGBX8888).copy()
            bitmap.close()
            page.close()
            return Picture(place, len(opened), drawn)
        finally:
            opened.close()
