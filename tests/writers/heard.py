"""Reading a PDF back as it is heard: the parts it is marked with, and what stands outside any."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from ctypes import byref, c_float, c_ulong, c_ushort
from dataclasses import dataclass
from functools import partial
from typing import Any

from pypdfium2 import PdfDocument, raw  # type: ignore[import-untyped]


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a page: its kind, the words in it (not those of parts within), what is said in its place, and the parts within."""

    kind: str
    words: str
    told: str
    scope: str
    across: int
    parts: tuple[Part, ...]

    def every(self, kind: str) -> Iterator[Part]:
        """This part and those within it that are of a kind, in reading order."""
        if self.kind == kind:
            yield self
        for part in self.parts:
            yield from part.every(kind)

    def said(self) -> str:
        """All words in it, in reading order."""
        return " ".join(words for words in (self.words, *(part.said() for part in self.parts)) if words)


def parts(pdf: bytes) -> list[Part]:
    """What each page is made of: its document part."""
    book = PdfDocument(pdf)
    try:
        return [_page(book[number]) for number in range(len(book))]
    finally:
        book.close()


def unmarked(pdf: bytes) -> list[str]:
    """What is drawn neither within a part nor as an artifact: the words, or the kind of object."""
    return [words or str(kind) for kind, words, named in _drawn(pdf) if not named]


def artifacts(pdf: bytes) -> list[str]:
    """The words that stand on each page and are not read out, a string a run."""
    return [words for _, words, named in _drawn(pdf) if words and named == ["Artifact"]]


def actual_texts(pdf: bytes) -> list[str]:
    """What is said to be read in the place of what parts draw, part by part."""
    book = PdfDocument(pdf)
    try:
        return [words for page in book for words in _actual(raw.FPDF_StructTree_GetForPage(page))]
    finally:
        book.close()


def tagged(pdf: bytes) -> tuple[bool, str]:
    """Whether the file says that it is marked, and its language."""
    book = PdfDocument(pdf)
    try:
        language = _text(lambda buffer, size: raw.FPDFCatalog_GetLanguage(book, buffer, size))
        return bool(raw.FPDFCatalog_IsTagged(book)), language
    finally:
        book.close()


def marks(each: Any) -> list[str]:
    """The names of the marks that something on a page is drawn under: the kind of its part, or that it is an artifact."""
    return [_name(raw.FPDFPageObj_GetMark(each, place)) for place in range(raw.FPDFPageObj_CountMarks(each))]


def _page(page: Any) -> Part:
    words: dict[int, list[str]] = defaultdict(list)
    sheet = page.get_textpage()
    for each in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT]):
        number = raw.FPDFPageObj_GetMarkedContentID(each)
        if number >= 0:
            words[number].append(_words(each, sheet))
    tree = raw.FPDF_StructTree_GetForPage(page)
    try:
        assert raw.FPDF_StructTree_CountChildren(tree) == 1
        return _part(raw.FPDF_StructTree_GetChildAtIndex(tree, 0), words)
    finally:
        raw.FPDF_StructTree_Close(tree)


def _actual(tree: Any) -> Iterator[str]:
    waiting = [raw.FPDF_StructTree_GetChildAtIndex(tree, place) for place in range(raw.FPDF_StructTree_CountChildren(tree))]
    while waiting:
        element = waiting.pop(0)
        words = _text(lambda buffer, size: raw.FPDF_StructElement_GetActualText(element, buffer, size))  # noqa: B023 - asked at once
        if words:
            yield words
        places = range(raw.FPDF_StructElement_CountChildren(element))
        waiting += [child for place in places if (child := raw.FPDF_StructElement_GetChildAtIndex(element, place))]


def _part(element: Any, words: dict[int, list[str]]) -> Part:
    numbers = [raw.FPDF_StructElement_GetMarkedContentIdAtIndex(element, place) for place in range(_count(element))]
    within = (raw.FPDF_StructElement_GetChildAtIndex(element, place) for place in range(raw.FPDF_StructElement_CountChildren(element)))
    scope, across = _table(element)
    return Part(
        _text(lambda buffer, size: raw.FPDF_StructElement_GetType(element, buffer, size)),
        "".join(piece for number in numbers for piece in words.get(number, ())).strip(),
        _text(lambda buffer, size: raw.FPDF_StructElement_GetAltText(element, buffer, size)),
        scope,
        across,
        tuple(_part(child, words) for child in within if child),
    )


def _count(element: Any) -> int:
    return max(0, int(raw.FPDF_StructElement_GetMarkedContentIdCount(element)))


def _table(element: Any) -> tuple[str, int]:
    """What the head of a table is the head of, and how many columns a cell takes."""
    scope, across = "", c_float(1)
    for place in range(max(0, raw.FPDF_StructElement_GetAttributeCount(element))):
        kept = raw.FPDF_StructElement_GetAttributeAtIndex(element, place)
        if value := raw.FPDF_StructElement_Attr_GetValue(kept, b"Scope"):
            scope = _text(partial(_sized, raw.FPDF_StructElement_Attr_GetStringValue, value))
        if value := raw.FPDF_StructElement_Attr_GetValue(kept, b"ColSpan"):
            raw.FPDF_StructElement_Attr_GetNumberValue(value, byref(across))
    return scope, int(across.value)


def _drawn(pdf: bytes) -> Iterator[tuple[int, str, list[str]]]:
    """Every object on every page: its kind, its words if it is text, and the names of its marks."""
    book = PdfDocument(pdf)
    try:
        for page in book:
            sheet = page.get_textpage()
            for each in page.get_objects():
                yield each.type, _words(each, sheet) if each.type == raw.FPDF_PAGEOBJ_TEXT else "", marks(each)
    finally:
        book.close()


def _words(each: Any, sheet: Any) -> str:
    return _text(lambda buffer, size: raw.FPDFTextObj_GetText(each, sheet, buffer, size))


def _name(mark: Any) -> str:
    return _text(partial(_sized, raw.FPDFPageObjMark_GetName, mark))


def _sized(ask: Callable[..., int], of: Any, buffer: Any, size: int) -> int:
    """Ask what gives its length by the way."""
    out = c_ulong()
    ask(of, buffer, size, byref(out))
    return out.value


def _text(ask: Callable[[Any, int], int]) -> str:
    """What is answered in UTF-16: asked once for its length in bytes, and once for itself."""
    size = ask(None, 0)
    buffer = (c_ushort * (size // 2 + 1))()
    ask(buffer, size)
    return bytes(buffer)[:size].decode("utf-16-le").rstrip("\0")
