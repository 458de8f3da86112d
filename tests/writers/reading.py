"""Reading a PDF back as a reader sees it."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from ctypes import c_float
from typing import Any

import numpy as np
import pypdfium2  # type: ignore[import-untyped]
from pypdfium2 import raw

MM = 72 / 25.4


def texts(pdf: bytes) -> list[str]:
    """The words of each page."""
    with _opened(pdf) as book:
        return [page.get_textpage().get_text_bounded() for page in book]


def sizes(pdf: bytes) -> list[tuple[int, int]]:
    """Width and height of each page, in millimetres."""
    with _opened(pdf) as book:
        return [(round(page.get_width() / MM), round(page.get_height() / MM)) for page in book]


def darkness(pdf: bytes) -> list[float]:
    """How much of each page is not white, as a part of it."""
    with _opened(pdf) as book:
        return [_inked(page.render(scale=0.5, grayscale=True).to_numpy()) for page in book]


def paths(pdf: bytes, page: int = 0) -> list[tuple[float, float, float, float]]:
    """Left, bottom, right, top of every line and box on a page, in millimetres."""
    with _opened(pdf) as book:
        found = book[page].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH])
        return [tuple(edge / MM for edge in each.get_bounds()) for each in found]


def corners(pdf: bytes, page: int = 0) -> list[tuple[tuple[float, float], ...]]:
    """The points that each line and outline of a page runs through, in millimetres: its path's own coordinates."""
    with _opened(pdf) as book:
        return [_points(each) for each in book[page].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH])]


def words_at(pdf: bytes, page: int = 0) -> list[tuple[float, float, float, float]]:
    """Left, bottom, right, top of every run of words on a page, in millimetres."""
    with _opened(pdf) as book:
        found = book[page].get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT])
        return [tuple(edge / MM for edge in each.get_bounds()) for each in found]


def said(pdf: bytes) -> dict[str, str]:
    """What the PDF says of itself."""
    with _opened(pdf) as book:
        return dict(book.get_metadata_dict())


def objects(pdf: bytes) -> bytes:
    """What the PDF says in objects that are packed together, one after the other."""
    packs = re.finditer(rb"<</Type /ObjStm /N \d+ /First (\d+)[^>]*/Length (\d+)>>\nstream\n", pdf)
    return b"\n".join(zlib.decompress(pdf[pack.end() :][: int(pack[2])])[int(pack[1]) :] for pack in packs)


def _points(path: pypdfium2.PdfObject) -> tuple[tuple[float, float], ...]:
    found = []
    for place in range(raw.FPDFPath_CountSegments(path)):
        x, y = c_float(), c_float()
        raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(path, place), x, y)
        across, up = path.get_matrix().on_point(x.value, y.value)
        found.append((across / MM, up / MM))
    return tuple(found)


@contextmanager
def _opened(pdf: bytes) -> Iterator[pypdfium2.PdfDocument]:
    book = pypdfium2.PdfDocument(pdf)
    try:
        yield book
    finally:
        book.close()


def _inked(pixels: np.ndarray[Any, Any]) -> float:
    return float((pixels < 250).mean())
