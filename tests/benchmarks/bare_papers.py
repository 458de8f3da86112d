"""The least that any program must do for a paper: its words, lines and rectangles on a bare reportlab canvas, without a thought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from io import BytesIO
from unittest.mock import patch

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from tundish.writers.pdf import VERSION
from tundish.writers.pdf_operators import Operators, Setting
from tundish.writers.pdf_pen import PAGE

Box = tuple[float, float, float, float]


@dataclass
class Page:
    """What was drawn on a page: words as (font, size, left, baseline, words), lines by their ends, rectangles by corner and size."""

    words: list[tuple[str, float, float, float, str]] = field(default_factory=list)
    lines: list[Box] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)


@contextmanager
def listening() -> Iterator[list[list[Page]]]:
    """The pages of every paper that is written meanwhile. Other outlines, clipping, turning, colours and widths are left out."""
    papers: list[list[Page]] = []
    with patch("tundish.writers.pdf_pen.Operators", _listener(papers)):
        yield papers
    for pages in papers:
        pages.pop()  # begun and never drawn on


def drawn_bare(pages: Sequence[Page], *, spelt: bool = True) -> bytes:
    """The words, lines and rectangles of one paper as a PDF: the same faces embedded, as many pages.

    `spelt`: pages packed and spelt in letters, as the library does if left alone; else packed alone, as ours are.
    """
    rl_config.useA85 = int(spelt)
    kept = BytesIO()
    canvas = Canvas(kept, pagesize=PAGE, invariant=1, pageCompression=1, pdfVersion=VERSION)
    for page in pages:
        font: tuple[str, float] | None = None
        for name, size, x, y, words in page.words:
            if font != (name, size):
                canvas.setFont(name, size)
                font = (name, size)
            canvas.drawString(x, y, words)
        for line in page.lines:
            canvas.line(*line)
        for box in page.boxes:
            canvas.rect(*box)
        canvas.showPage()
    canvas.save()
    return kept.getvalue()


def counted(papers: Sequence[Sequence[Page]]) -> Counter[str]:
    """How many pages, words, lines and rectangles there are in all."""
    count: Counter[str] = Counter()
    for page in (page for paper in papers for page in paper):
        count.update({"pages": 1, "strings": len(page.words), "lines": len(page.lines), "rectangles": len(page.boxes)})
    return count


def _listener(papers: list[list[Page]]) -> type[Operators]:
    class Listener(Operators):
        def __init__(self, canvas: Canvas) -> None:
            papers.append([Page()])
            super().__init__(canvas)

        def words(self, at: Setting, text: str) -> None:
            papers[-1][-1].words.append((at.face.name, at.size, at.x, at.y, text))
            super().words(at, text)

        def line(self, *ends: float) -> None:
            papers[-1][-1].lines.append(ends)  # type: ignore[arg-type]
            super().line(*ends)

        def ruled(self, ends: Iterable[Box], boxes: Iterable[Box]) -> None:
            kept, squares = list(ends), list(boxes)
            papers[-1][-1].lines += kept
            papers[-1][-1].boxes += squares
            super().ruled(kept, squares)

        def box(self, x: float, y: float, wide: float, high: float, how: str) -> None:
            papers[-1][-1].boxes.append((x, y, wide, high))
            super().box(x, y, wide, high, how)

        def round_box(self, box: Box, radius: float, how: str) -> None:
            papers[-1][-1].boxes.append(box)
            super().round_box(box, radius, how)

        def page_ends(self) -> None:
            super().page_ends()
            papers[-1].append(Page())

    return Listener
