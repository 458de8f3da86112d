"""A ruled box with lines to write on. All in points."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import nullcontext
from typing import Final

from tundish.documents.block import FillIn
from tundish.writers.pdf_flow import Strip, text_strips
from tundish.writers.pdf_pen import EDGE, Pen, Stroke
from tundish.writers.pdf_tags import Tag
from tundish.writers.pdf_type import MM, Type

TITLE: Final = Type("SemiBold", 9.5)
SENTENCE: Final = Type("Regular", 9)
LABEL: Final = Type("Regular", 8.5, "ink2")
PAD: Final = 9.0
STEP: Final = 21.0
"""From one writing line to the next: room for handwriting."""
LEAST: Final = 18 * MM
"""A writing line is at least this long."""
MOST_LINES: Final = 30
_MOST_TITLE: Final = 4
_SHARES: Final = {1: (1.0,), 2: (0.58, 0.42), 3: (0.46, 0.31, 0.23)}
_WRITE: Final = Stroke("ink2", 0.7)
Cell = tuple[float, float, float, str]
"""One label and its line: where the label starts, where the line starts and ends, the label."""


def fill_in_strips(box: FillIn, width: float) -> Iterator[Strip]:
    """The box as one strip; sentences too many for a page stand before it."""
    inner = width - 2 * PAD
    sentences = [line for sentence in box.sentences for line in SENTENCE.lines(sentence, inner)]
    if len(sentences) > MOST_LINES:
        yield from text_strips(sentences, SENTENCE, Tag("P"), gap=8)
        sentences = []
    title = TITLE.lines(box.title, inner, _MOST_TITLE) if box.title else ()
    rows = _rows(box.lines, inner)
    for start in range(0, max(len(rows), 1), MOST_LINES):
        yield _box((title, sentences) if start == 0 else ((), ()), rows[start : start + MOST_LINES], width)


def _box(words: tuple[Sequence[str], Sequence[str]], rows: Sequence[Sequence[Cell]], width: float) -> Strip:
    title, sentences = words
    above = len(title) * TITLE.leading + len(sentences) * SENTENCE.leading
    height = above + len(rows) * STEP + 2 * PAD - 2

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.box((left, top - height, width, height), stroke=EDGE, radius=3.5)
        y = top - PAD + 2
        for lines, kind in ((title, TITLE), (sentences, SENTENCE)):
            with pen.tags.within(Tag("P")) if lines else nullcontext():
                for line in lines:
                    pen.text(left + PAD, y - kind.size, line, kind)
                    y -= kind.leading
        for row in rows:
            y -= STEP
            for at, start, end, label in row:
                with pen.tags.within(Tag("P")):
                    pen.text(left + PAD + at, y + 3.4, label, LABEL)
                pen.line(left + PAD + start, y + 1, left + PAD + end, y + 1, _WRITE)

    return Strip(height, draw, 10)


def _rows(labels: Sequence[str], width: float) -> list[list[Cell]]:
    """The labels dealt out over rows of one, two or three, each with room for its line."""
    shares = next((shares for count, shares in sorted(_SHARES.items(), reverse=True) if _suits(labels, count, width)), _SHARES[1])
    count = len(shares)
    rows = [labels[start : start + count] for start in range(0, len(labels), count)]
    starts = [max((LABEL.width(row[place]) for row in rows if place < len(row)), default=0.0) + 5 for place in range(count)]
    return [_cells(row, shares, starts, width) for row in rows]


def _suits(labels: Sequence[str], count: int, width: float) -> bool:
    """Whether so many labels fit next to one another, with none left alone."""
    if len(labels) % count:
        return False
    return all(
        LABEL.width(label) + LEAST <= share * width - PAD
        for start in range(0, len(labels), count)
        for label, share in zip(labels[start : start + count], _SHARES[count], strict=True)
    )


def _cells(row: Sequence[str], shares: Sequence[float], starts: Sequence[float], width: float) -> list[Cell]:
    cells, left = [], 0.0
    for place, (label, share, start) in enumerate(zip(row, shares, starts, strict=True)):
        wide = share * width - (PAD if place < len(shares) - 1 else 0)
        words = LABEL.cut(label, wide - LEAST)
        cells.append((left, left + min(start, wide - LEAST + 5), left + wide, words))
        left += share * width
    return cells
