"""A paper as PDF: A4 upright, the same head and foot on every page, the same bytes for the same document."""

from __future__ import annotations

from contextlib import nullcontext
from dataclasses import replace
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import Any, Final

from tundish.documents.block import Document
from tundish.writers.pdf_blocks import dealt
from tundish.writers.pdf_flow import BOTTOM, MARGIN, WIDTH
from tundish.writers.pdf_packed import packed
from tundish.writers.pdf_pen import COLOUR, HAIRLINE, PAGE, RULE, Anchor, Pen, Stroke
from tundish.writers.pdf_picture import opened
from tundish.writers.pdf_tags import Kind, Tag
from tundish.writers.pdf_type import MM, Type, face
from tundish.writers.pictures import LOGO, Pictures, none_kept
from tundish.writers.safe import one_line, write_whole

NAME: Final = Type("SemiBold", 13)
UNDER: Final = Type("Regular", 8.7, "ink2")
FOOT: Final = Type("Regular", 8, "ink2")
DEMO: Final = Type("Bold", 190)
VERSION: Final = (1, 7)
"""Of the format (ISO 32000-1): what it says of parts is read by it."""
_RIGHT: Final = PAGE[0] - MARGIN
_NAME_LINE: Final = PAGE[1] - 15.2 * MM
_UNDER_LINE: Final = PAGE[1] - 19.8 * MM
_RULE: Final = PAGE[1] - 23 * MM
_FOOT_LINE: Final = MARGIN + 1
_MARK: Final = Stroke("ink", 1.1)
_LOGO_ROOM: Final = (32 * MM, 9.5 * MM)
_LOGO_DOTS: Final = 300 / 72
"""Dots in a point of paper: a logo has sharp edges."""


def write_pdf(document: Document, path: Path, printed: str, pictures: Pictures = none_kept) -> None:
    """Write the paper to a file; `printed` is the time that stands at its foot.

    Raises:
        CouldNotWriteError: the file could not be written; what was there is untouched.
    """
    write_whole(path, pdf_bytes(document, printed, pictures))


def pdf_bytes(document: Document, printed: str, pictures: Pictures = none_kept) -> bytes:
    """The paper as the bytes of a PDF; `pictures` gives the bytes of its photographs, and of the logo at its head if there is one."""
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0  # pages and photographs as bytes: spelt in letters they are a quarter longer, and slow to spell
    kept = BytesIO()
    own: Any = face("Regular").name  # the stubs take it for a number
    canvas = Canvas(kept, pagesize=PAGE, invariant=1, pageCompression=0, lang="en-GB", initialFontName=own, pdfVersion=VERSION)
    canvas.setTitle(one_line(f"{document.title} {document.number}"))
    canvas.setAuthor(one_line(document.sender))
    canvas.setSubject(one_line(document.subtitle))
    canvas.setCreator("Tundish")
    canvas.setProducer("Tundish")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    pen = Pen(canvas)
    demo = Tag("P")
    if document.demo:
        pen.tags.hold(demo)  # heard first, drawn last
    made = dealt(document.blocks, pictures)
    logo = opened(pictures(LOGO), _LOGO_ROOM, _LOGO_DOTS)
    for number, page in enumerate(made, start=1):
        if number == 1:
            _head(pen, document, logo)
        else:
            pen.again(document, lambda: _head(pen, document, logo), len(made))
        for placed in page:
            if placed.again:
                pen.again((placed.strip.draw, placed.top), partial(placed.strip.draw, pen, MARGIN, placed.top), len(made))
            else:
                placed.strip.draw(pen, MARGIN, placed.top)
        _foot(pen, document.foot, f"Page {number} of {len(made)}", printed)
        if document.demo:
            with pen.tags.within(demo) if number == 1 else nullcontext():
                _demo(pen)
        pen.finish()
        canvas.showPage()
    pen.tags.write()
    canvas.save()
    return packed(kept.getvalue(), pen.tags.objects)


def _sign(pen: Pen, document: Document, logo: tuple[Any, float, float] | None) -> float:
    """The trader's logo, or the program's sign; gives where words beside it begin."""
    if not logo:
        _funnel(pen, MARGIN + 1, _UNDER_LINE + 1.5)
        return MARGIN + 24
    body, wide, high = logo
    low = _RULE + 3
    with pen.tags.within(Tag("Figure", told=f"Logo of {document.sender}", box=(MARGIN, low, MARGIN + wide, low + high))):
        pen.picture(body, (MARGIN, low, wide, high))
    return MARGIN + wide + 9


def _head(pen: Pen, document: Document, logo: tuple[Any, float, float] | None) -> None:
    left = _sign(pen, document, logo)
    title = f"{document.title} {document.number}".strip()
    room = _RIGHT - left - 12
    most = max(room / 2, room - max(NAME.width(document.sender), UNDER.width(document.trade)))
    title, under = NAME.cut(title, most), UNDER.cut(document.subtitle, most)
    sender, trade = NAME.cut(document.sender, room - NAME.width(title)), UNDER.cut(document.trade, room - UNDER.width(under))
    colour = COLOUR[document.colour]
    name = replace(NAME, colour=colour)
    words: tuple[tuple[Kind, float, float, str, Type, Anchor], ...] = (
        ("H1", _RIGHT, _NAME_LINE, title, name, "end"),
        ("P", _RIGHT, _UNDER_LINE, under, UNDER, "end"),
        ("P", left, _NAME_LINE, sender, name, "start"),
        ("P", left, _UNDER_LINE, trade, UNDER, "start"),
    )
    for kind, x, y, text, setting, anchor in words:
        with pen.tags.within(Tag(kind)):
            pen.text(x, y, text, setting, anchor)
    pen.line(MARGIN, _RULE, _RIGHT, _RULE, replace(RULE, colour=colour))


def _foot(pen: Pen, foot: str, number: str, printed: str) -> None:
    pen.line(MARGIN, BOTTOM - 8, _RIGHT, BOTTOM - 8, HAIRLINE)
    right = FOOT.cut(f"Printed {printed} · {number}" if printed else number, WIDTH * 0.6)
    pen.text(_RIGHT, _FOOT_LINE, right, FOOT, "end")
    pen.text(MARGIN, _FOOT_LINE, FOOT.cut(foot, WIDTH - FOOT.width(right) - 12), FOOT)


def _funnel(pen: Pen, left: float, low: float) -> None:
    """The program's sign: a tundish."""
    points = ((2, 17), (16, 17), (10.7, 9.5), (10.7, 5.5), (7.3, 5.5), (7.3, 9.5))
    pen.shape([(left + x - 2, low + y) for x, y in points], stroke=_MARK)
    pen.lines(((left + 5, low + 10, left + 9, low + 10), (left + 7, low + 3.2, left + 7, low)), _MARK)


def _demo(pen: Pen) -> None:
    """DEMO across the page, over everything and seen through."""
    with pen.turned(PAGE[0] / 2, PAGE[1] / 2, 52):
        pen.canvas.setFillAlpha(0.09)
        pen.text(0, -DEMO.size * 0.34, "DEMO", DEMO, "middle")
