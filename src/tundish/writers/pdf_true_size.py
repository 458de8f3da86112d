"""A drawing at true size, dealt out over pages: a window of the drawing on each, crosses to join them by, bars to measure.

One millimetre of the drawing is one of paper: 72 / 25.4 points. Neighbouring windows overlap, and each cross stands on both.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import Final

from tundish.documents.block import TrueSize
from tundish.documents.drawing import Drawing
from tundish.writers.pdf_drawing import At, paint
from tundish.writers.pdf_flow import ROOM, Strip
from tundish.writers.pdf_pen import HAIRLINE, RULE, Pen, Stroke
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_type import MM, Type

CELL: Final = (164.0, 206.0)
"""What one page shows that no other needs to, mm: width and height."""
LAP: Final = 9.0
"""How far each window reaches beyond its cell, over its neighbours', mm."""
BAR: Final = 100
"""The bars that are measured, mm."""
HEAD: Final = 24.0
"""What the words over a window take, points."""
_MOST: Final = 26
_TITLE: Final = Type("SemiBold", 10.5)
_PAGE: Final = Type("SemiBold", 15)
_SMALL: Final = Type("Regular", 8, "ink2")
_WARN: Final = Type("Bold", 30, "tbc")
_EDGE: Final = Stroke("ink2", 0.5, (1.5, 3))
_CROSS: Final = Stroke("ink", 0.6)
_ARM: Final = 5.0


@dataclass(frozen=True, slots=True)
class Cut:
    """How a drawing is cut into cells: the left and low edges of all of them together, mm, and how many."""

    left: float
    low: float
    columns: int
    rows: int

    def name(self, column: int, row: int) -> str:
        """What a page is called: A1 is the top left one."""
        return f"{chr(ord('A') + column % _MOST)}{row + 1}" if 0 <= column < self.columns and 0 <= row < self.rows else ""


def cut_of(drawing: Drawing) -> Cut:
    """The cells of a drawing, what is spare shared out on all sides."""
    x, y, width, height = drawing.extent
    columns, rows = (max(1, ceil(round(size / cell, 6))) for size, cell in zip((width, height), CELL, strict=True))
    return Cut(x - (columns * CELL[0] - width) / 2, y - (rows * CELL[1] - height) / 2, columns, rows)


def true_size_strips(block: TrueSize, width: float) -> Iterator[Strip]:
    """A strip as high as a page for every cell, row by row from the top."""
    cut = cut_of(block.drawing)
    for row in range(cut.rows):
        for column in range(cut.columns):
            yield _page(block, cut, (column, row), width)


def _page(block: TrueSize, cut: Cut, place: tuple[int, int], width: float) -> Strip:
    column, row = place
    wide, high = ((size + 2 * LAP) * MM for size in CELL)

    def draw(pen: Pen, left: float, top: float) -> None:
        _words(pen, (left, top, width), block.title, cut, place)
        low = top - HEAD - high
        corner = (cut.left + column * CELL[0] - LAP, cut.low + (cut.rows - 1 - row) * CELL[1] - LAP)
        outline = ((left, low), (left + wide, low), (left + wide, low + high), (left, low + high))
        told = ". ".join(words for words in (f"Page {cut.name(*place)} of {block.title}, at true size", block.warning) if words)
        figure = Tag("Figure", told=told, box=(left, low, left + wide, low + high))
        with pen.tags.within(figure), pen.within(outline):
            paint(pen, block.drawing.marks, At(left - corner[0] * MM, low - corner[1] * MM, MM))
        pen.shape(outline, stroke=HAIRLINE)
        _crosses(pen, left, low)
        _neighbours(pen, (left, low), cut, place)
        _bars(pen, left, low, wide)
        if block.warning:
            with pen.tags.within(figure):
                _warn(pen, left + wide / 2, low + high / 2, block.warning)

    return Strip(ROOM, draw, fresh=True)


def _words(pen: Pen, at: tuple[float, float, float], title: str, cut: Cut, place: tuple[int, int]) -> None:
    left, top, width = at
    name = cut.name(*place)
    beside = left + _PAGE.width(name) + 10
    with pen.tags.within(Tag("P")):
        pen.text(left, top - 15, name, _PAGE)
        pen.text(beside, top - 14, _TITLE.cut(title, width - (beside - left) - 120), _TITLE)
    _key(pen, left + width, top, cut, place)
    x = left + width - cut.columns * 8 - 22
    pen.shape(((x, top - 2), (x - 5, top - 10), (x + 5, top - 10)), fill="ink")
    pen.line(x, top - 10, x, top - 18, RULE)
    pen.text(x - 9, top - 14, "this way up", _SMALL, "end")


def _key(pen: Pen, right: float, top: float, cut: Cut, place: tuple[int, int]) -> None:
    """Where this page is among all of them."""
    size = min(8.0, 18 / cut.rows)
    for row in range(cut.rows):
        for column in range(cut.columns):
            box = (right - (cut.columns - column) * size, top - (row + 1) * size, size, size)
            pen.box(box, fill="ink" if (column, row) == place else "", stroke=HAIRLINE)


def _crosses(pen: Pen, left: float, low: float) -> None:
    """A cross at each corner of the cell, on the pages either side of it too, and the dotted line the pages meet at."""
    x1, y1 = left + LAP * MM, low + LAP * MM
    x2, y2 = x1 + CELL[0] * MM, y1 + CELL[1] * MM
    pen.lines(((x1, y1, x2, y1), (x1, y2, x2, y2), (x1, y1, x1, y2), (x2, y1, x2, y2)), _EDGE)
    for x in (x1, x2):
        for y in (y1, (y1 + y2) / 2, y2):
            pen.lines(((x - _ARM * MM, y, x + _ARM * MM, y), (x, y - _ARM * MM, x, y + _ARM * MM)), _CROSS)


def _neighbours(pen: Pen, at: tuple[float, float], cut: Cut, place: tuple[int, int]) -> None:
    """Which page is laid to each side."""
    (left, low), (column, row) = at, place
    wide, high = ((size + 2 * LAP) * MM for size in CELL)
    middle, near = left + wide * 0.3, LAP * MM / 2
    for name, x, y in (
        (cut.name(column, row - 1), middle, low + high - near),
        (cut.name(column, row + 1), middle, low + near),
        (cut.name(column - 1, row), left + near, low + high * 0.7),
        (cut.name(column + 1, row), left + wide - near, low + high * 0.7),
    ):
        if name:
            pen.box((x - 9, y - 5.5, 18, 11), fill="sheet", stroke=HAIRLINE, radius=2)
            pen.text(x, y - 3, name, _SMALL, "middle")


def _bars(pen: Pen, left: float, low: float, wide: float) -> None:
    """A bar along and a bar up the page: a printer may stretch one way only."""
    y, x, tick = low - 11, left + wide + 6, 3.0
    pen.line(left, y, left + BAR * MM, y, RULE)
    pen.lines(((left + each * MM, y - tick, left + each * MM, y + tick) for each in range(0, BAR + 1, 10)), RULE)
    with pen.tags.within(Tag("P")):
        pen.text(left + BAR * MM + 8, y - 3, f"Both bars must measure {BAR} mm: if not, print again at 100 %", _SMALL)
    pen.line(x, low, x, low + BAR * MM, RULE)
    pen.lines(((x - tick, low + each * MM, x + tick, low + each * MM) for each in range(0, BAR + 1, 10)), RULE)


def _warn(pen: Pen, x: float, y: float, words: str) -> None:
    with pen.turned(x, y, 38):
        pen.canvas.setFillAlpha(0.35)
        pen.text(0, -_WARN.size * 0.34, words, _WARN, "middle")
