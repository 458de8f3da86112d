"""The blocks of a paper as strips: one function a block. All in points."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any, Final

from tundish.documents.block import (
    Block,
    Facts,
    FillIn,
    Heading,
    NextPage,
    Paragraph,
    Picture,
    Points,
    RulerCheck,
    SideBySide,
    Sketch,
    Sums,
    Table,
    TrueSize,
)
from tundish.writers.pdf_facts import BODY, QUIET, STRONG, facts_strips, sums_strips
from tundish.writers.pdf_fill_in import fill_in_strips
from tundish.writers.pdf_flow import ROOM, WIDTH, Placed, Strip, beside, filled, kept, pages, stacked, text_strips
from tundish.writers.pdf_pen import EDGE, RULE, Pen
from tundish.writers.pdf_picture import picture_strips
from tundish.writers.pdf_sketch import sketch_strip
from tundish.writers.pdf_table import table_strips
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_true_size import true_size_strips
from tundish.writers.pdf_type import MM, Type
from tundish.writers.pictures import Pictures, none_kept

POINT: Final = Type("Regular", 8.7)
GUTTER: Final = 8 * MM
"""Between two blocks side by side."""
LITTLE: Final = 0.4
"""A last page that is filled no more than so is worth saving."""
_CLOSER: Final = 0.3
"""What is left of a gap where a paper is closed up."""
_HEADINGS: Final = {1: Type("SemiBold", 12), 2: Type("SemiBold", 11)}
_TONES: Final = {"plain": BODY, "note": QUIET, "strong": STRONG, "caution": BODY}
_MOST_LINES: Final = 45
_LOST: Final = 2
"""A point of no more lines than this looks lost alone."""
_SHORT: Final = 2
_DASH: Final = 9.0


def dealt(blocks: Sequence[Block], pictures: Pictures = none_kept) -> tuple[tuple[Placed, ...], ...]:
    """The blocks over pages; closed up where that saves a last page with little on it."""
    made = pages(strips_of(blocks, WIDTH, pictures))
    if len(made) > 1 and filled(made[-1]) < LITTLE:
        closer = pages(strips_of(blocks, WIDTH, pictures, close=True))
        return closer if len(closer) < len(made) else made
    return made


def strips_of(blocks: Sequence[Block], width: float, pictures: Pictures = none_kept, *, close: bool = False) -> tuple[Strip, ...]:
    """All strips of the blocks, a box to fill in held with what is above; `pictures` gives photographs. `close`: with less between."""
    strips: list[Strip] = []
    for before, block in zip((None, *blocks), blocks, strict=False):
        made = tuple(_strips(block, width, pictures, close=close))
        if close:
            made = tuple(replace(strip, gap=strip.gap * _CLOSER) for strip in made)
        if isinstance(before, NextPage) and made:
            made = (replace(made[0], fresh=True), *made[1:])
        elif isinstance(block, FillIn) and strips:
            strips[-1:] = kept(strips[-1:])
        strips += _held(made) if _leads(before, block, made) else made
    return tuple(strips)


def _strips(block: Block, width: float, pictures: Pictures, *, close: bool) -> Iterable[Strip]:
    match block:
        case NextPage():
            return ()
        case SideBySide():
            return _side_by_side(block, width, pictures)
        case Table():
            return table_strips(block, width, close=close)
        case Picture():
            return picture_strips(block, width, pictures)
        case _:
            return _BLOCKS[type(block)](block, width)


def _leads(before: Block | None, block: Block, made: Sequence[Strip]) -> bool:
    """Whether it is a short paragraph right under a heading: nothing without what comes next."""
    return isinstance(before, Heading) and isinstance(block, Paragraph) and len(made) <= _SHORT


def _held(strips: Iterable[Strip]) -> Iterator[Strip]:
    return (replace(strip, keep=True) for strip in strips)


def _heading(heading: Heading, width: float) -> Iterator[Strip]:
    kind = _HEADINGS.get(heading.level, STRONG)
    tag = Tag("H2" if heading.level in _HEADINGS else "H3")
    yield from _held(text_strips(kind.lines(heading.text, width), kind, tag, gap=kind.size))


def _paragraph(paragraph: Paragraph, width: float) -> Iterator[Strip]:
    kind, tag = _TONES[paragraph.tone], Tag("P")
    if paragraph.tone != "caution":
        yield from text_strips(kind.lines(paragraph.text, width), kind, tag, gap=6)
        return
    lines = kind.lines(paragraph.text, width - 20)
    for start in range(0, len(lines), _MOST_LINES):
        yield _boxed(lines[start : start + _MOST_LINES], kind, tag, width)


def _boxed(lines: Sequence[str], kind: Type, tag: Tag, width: float) -> Strip:
    height = len(lines) * kind.leading + 11

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.box((left, top - height, width, height), stroke=EDGE, radius=3)
        pen.box((left + 4, top - height + 4, 2, height - 8), fill="ink2")
        with pen.tags.within(tag):
            for number, line in enumerate(lines):
                pen.text(left + 12, top - 5 - kind.size - number * kind.leading, line, kind)

    return Strip(height, draw, 8)


def _points(points: Points, width: float) -> Iterator[Strip]:
    """A heading and its points; neither the first of them nor the last is alone on a page, where it is short."""
    gap, whole = 9.0, Tag("L")
    if points.title:
        yield from kept(text_strips(STRONG.lines(points.title, width), STRONG, Tag("P"), gap=gap))
        gap = 2.5
    last = len(points.items) - 1
    for number, item in enumerate(points.items):
        one = Tag("LI", whole)
        words = tuple(text_strips(POINT.lines(item, width - _DASH), POINT, Tag("LBody", one), gap=gap, indent=_DASH))
        made = (_dashed(words[0], Tag("Lbl", one)), *words[1:])
        lost = number < last and number in {0, last - 1} and len(made) <= _LOST
        yield from kept(made) if lost else made
        gap = 1.0


def _dashed(strip: Strip, tag: Tag) -> Strip:
    def draw(pen: Pen, left: float, top: float) -> None:
        with pen.tags.within(tag):
            pen.text(left, top - POINT.size, "–", POINT)
        strip.draw(pen, left, top)

    return Strip(strip.height, draw, strip.gap, strip.keep)


def _side_by_side(both: SideBySide, width: float, pictures: Pictures) -> Iterator[Strip]:
    """Two halves as one strip, or one after the other where together they would not stand on a page."""
    half = (width - GUTTER) / 2
    left, right = strips_of(both.left, half, pictures), strips_of(both.right, half, pictures)
    pair = beside(stacked(left), stacked(right), half + GUTTER)
    if pair.height <= ROOM:
        yield pair
    else:
        yield from strips_of((*both.left, *both.right), width, pictures)


def _sketch(sketch: Sketch, width: float) -> Iterator[Strip]:
    yield sketch_strip(sketch, width)


def _ruler(_: RulerCheck, __: float) -> Iterator[Strip]:
    def draw(pen: Pen, left: float, top: float) -> None:
        y = top - 7
        pen.line(left, y, left + 50 * MM, y)
        pen.lines(((left + each * MM, y - 3.5, left + each * MM, y + 3.5) for each in range(0, 51, 10)), RULE)
        with pen.tags.within(Tag("P")):
            pen.text(left + 50 * MM + 7, y - 3, "50 mm: if your ruler disagrees, the print was scaled", QUIET)

    yield Strip(14, draw, 10)


_BLOCKS: Final[dict[type[Block], Callable[[Any, float], Iterator[Strip]]]] = {
    Heading: _heading,
    Paragraph: _paragraph,
    Points: _points,
    Sums: sums_strips,
    Facts: facts_strips,
    Sketch: _sketch,
    FillIn: fill_in_strips,
    RulerCheck: _ruler,
    TrueSize: true_size_strips,
}
