"""The least that any program must do for a paper: its words, lines and rectangles on a bare reportlab canvas, without a thought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any
from unittest.mock import patch

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from tundish.writers.pdf import VERSION
from tundish.writers.pdf_flow import PAGE

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
    with patch("reportlab.pdfgen.canvas.Canvas", _listener(papers)):
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


def _listener(papers: list[list[Page]]) -> type[Canvas]:
    class Listener(Canvas):
        def __init__(self, *words: Any, **options: Any) -> None:
            papers.append([Page()])
            super().__init__(*words, **options)

        def beginText(self, x: float = 0, y: float = 0, direction: Any = None) -> Any:  # noqa: N802
            begun: Any = super().beginText(x, y, direction)
            set_line = begun.textLine

            def heard(text: str = "") -> None:
                papers[-1][-1].words.append((begun._fontname, begun._fontsize, x, y, text))
                set_line(text)

            begun.textLine = heard
            return begun

        def line(self, *ends: float) -> None:
            papers[-1][-1].lines.append(ends)  # type: ignore[arg-type]
            super().line(*ends)

        def lines(self, linelist: list[Box]) -> None:
            papers[-1][-1].lines += linelist
            super().lines(linelist)

        def rect(self, x: float, y: float, width: float, height: float, *rest: Any, **options: Any) -> None:
            papers[-1][-1].boxes.append((x, y, width, height))
            super().rect(x, y, width, height, *rest, **options)

        def roundRect(self, x: float, y: float, width: float, height: float, *rest: Any, **options: Any) -> None:  # noqa: N802
            papers[-1][-1].boxes.append((x, y, width, height))
            super().roundRect(x, y, width, height, *rest, **options)

        def showPage(self) -> None:  # noqa: N802
            super().showPage()
            papers[-1].append(Page())

    return Listener
