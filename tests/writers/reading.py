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
GREYISH = 24
"""How far the parts of a colour may lie apart where it still looks grey or black, of 255: ink has a touch of blue."""


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


def coloured(pdf: bytes, head_mm: float) -> list[tuple[int, int]]:
    """How many points of each page are neither black, grey nor near to either: within its head, and below."""
    made = []
    with _opened(pdf) as book:
        for page in book:
            seen = page.render(scale=2).to_numpy().astype(int)
            plain = seen.max(axis=2) - seen.min(axis=2) <= GREYISH
            edge = round(head_mm * MM * 2)
            made.append((int((~plain[:edge]).sum()), int((~plain[edge:]).sum())))
    return made


def grey(shades: tuple[float, float, float]) -> float:
    """What a copier that knows no colour makes of one: 0 is black, 1 white (the luma of ITU-R BT.601)."""
    red, green, blue = shades
    return 0.299 * red + 0.587 * green + 0.114 * blue


def contrast(one: tuple[float, float, float], other: tuple[float, float, float]) -> float:
    """How well one colour is told from another: the ratio of WCAG 2.2, 1 to 21."""
    dark, light = sorted((_luminance(one), _luminance(other)))
    return (light + 0.05) / (dark + 0.05)


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


def _luminance(shades: tuple[float, float, float]) -> float:
    red, green, blue = (each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in shades)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


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
