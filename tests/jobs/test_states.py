"""Every paper in every awkward state: nothing leaves the page or lies over other words, all that is said is there, pages are numbered."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
import pytest
from pypdfium2 import PdfDocument, raw  # type: ignore[import-untyped]

from tests.jobs.states import states
from tests.writers.heard import marks
from tundish.documents.block import Block, Document, Facts, Heading, Paragraph, Points, SideBySide, Sums, Table
from tundish.documents.index import build, build_all
from tundish.estimate import estimate
from tundish.writers.cell import shown
from tundish.writers.html import as_html
from tundish.writers.pdf import pdf_bytes
from tundish.writers.pdf_blocks import dealt
from tundish.writers.safe import legible
from tundish.writers.text import as_text

PRINTED: Final = "2026-11-25 09:00"
MOST_BYTES: Final = 300_000
EDGE: Final = 11.2 * 72 / 25.4
"""A margin of 12 mm, less half a line and what an emoji stands over its line, in points."""
TOUCH: Final = 1.2
"""How far the boxes of two words may reach into one another, in points: type set close."""
PLAIN: Final = re.compile(r"[A-Za-z0-9]")
CLIPPED: Final = frozenset({"template"})
"""Papers whose drawings are windows of a larger one: what is outside them is there and not seen."""
ALL_WORDS: Final = frozenset({"labels"})
"""Papers in whose drawings no words may touch either; elsewhere a name may stand on a pipe."""
STATES: Final = states()
CUT: Final = frozenset({"endless"})
"""States of which headings are cut short."""


Run = tuple[float, float, float, float, bool]
"""Left, low, right and high of a run of words, in points, and whether it stands in a drawing."""


@dataclass(frozen=True, slots=True)
class Printed:
    """A paper, its bytes, and for each page its size, its words as text, and every run of words."""

    document: Document
    made: bytes
    sizes: tuple[tuple[float, float], ...]
    texts: tuple[str, ...]
    runs: tuple[tuple[Run, ...], ...]


@pytest.fixture(scope="module", params=STATES)
def printed(request: pytest.FixtureRequest) -> tuple[str, tuple[Printed, ...]]:
    job, book = STATES[request.param]()
    papers = build_all(estimate(job, book))
    if request.param in CUT:
        papers = tuple(each for each in papers if each.key in {"quote", "terms", "heights", "labels", "programme"})
    return request.param, tuple(_printed(each) for each in papers)


def test_every_page_is_numbered_and_its_words_keep_the_margins(printed: tuple[str, tuple[Printed, ...]]) -> None:
    for paper in printed[1]:
        count = len(paper.texts)
        assert {(round(wide), round(high)) for wide, high in paper.sizes} == {(595, 842)}
        for number, (text, runs) in enumerate(zip(paper.texts, paper.runs, strict=True), start=1):
            assert f"Page {number} of {count}" in text
            within = [run for run in runs if not run[4] or paper.document.key not in CLIPPED]
            lefts, lows, rights, highs, _ = zip(*within, strict=True)
            where = (paper.document.key, number)
            assert min(lefts) >= EDGE, where
            assert min(lows) >= EDGE, where
            assert max(rights) <= paper.sizes[0][0] - EDGE, where
            assert max(highs) <= paper.sizes[0][1] - EDGE, where


def test_no_words_lie_over_others(printed: tuple[str, tuple[Printed, ...]]) -> None:
    for paper in printed[1]:
        for number, runs in enumerate(paper.runs, start=1):
            assert not _over([run for run in runs if not run[4] or paper.document.key in ALL_WORDS]), (paper.document.key, number)


def test_all_that_is_said_is_printed(printed: tuple[str, tuple[Printed, ...]]) -> None:
    for paper in printed[1]:
        there = Counter(PLAIN.findall("".join(paper.texts)))
        said = Counter(PLAIN.findall(legible("".join(_said(paper.document.blocks)))))
        assert not said - there, paper.document.key


def test_a_paper_without_photographs_is_a_small_file(printed: tuple[str, tuple[Printed, ...]]) -> None:
    state, papers = printed
    assert state in CUT or max(len(each.made) for each in papers) < MOST_BYTES


def test_every_paper_reads_as_text_and_as_a_page(printed: tuple[str, tuple[Printed, ...]]) -> None:
    for paper in printed[1]:
        words = PLAIN.findall(legible("".join(_said(paper.document.blocks))))
        for made in (as_text(paper.document), as_html(paper.document, PRINTED)):
            assert not Counter(words) - Counter(PLAIN.findall(made)), paper.document.key
        assert "<b>&amp;" not in as_html(paper.document, PRINTED)


def _printed(document: Document) -> Printed:
    made = pdf_bytes(document, PRINTED)
    book = PdfDocument(made)
    try:
        pages = [book[number] for number in range(len(book))]
        sizes = tuple(page.get_size() for page in pages)
        texts = tuple(page.get_textpage().get_text_bounded() for page in pages)
        return Printed(document, made, sizes, texts, tuple(tuple(_runs(page)) for page in pages))
    finally:
        book.close()


def _runs(page: Any) -> Iterator[Run]:
    for each in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT]):
        yield (*each.get_bounds(), "Figure" in marks(each))


def _over(boxes: Sequence[Run]) -> list[tuple[int, int]]:
    """Which of the boxes reach into one another, by their places."""
    left, low, right, high = np.array([box[:4] for box in boxes]).T
    across = np.minimum(right[:, None], right) - np.maximum(left[:, None], left)
    up = np.minimum(high[:, None], high) - np.maximum(low[:, None], low)
    found = np.argwhere(np.triu((across > TOUCH) & (up > TOUCH), 1))
    return [(int(one), int(other)) for one, other in found]


def _said(blocks: Iterable[Block]) -> Iterator[str]:
    """The words of a paper's blocks; headings across a table are cut short, and drawings have their own."""
    for block in blocks:
        match block:
            case Paragraph() | Heading():
                yield block.text
            case Points():
                yield from (block.title, *block.items)
            case Facts():
                yield from (word for head, lines in block.columns for word in (head, *lines))
            case Sums():
                yield from (label for label, _ in block.rows)
            case SideBySide():
                yield from _said((*block.left, *block.right))
            case Table():
                for row in block.rows:
                    cells = zip(block.columns, row.cells, strict=False)
                    yield from () if row.group else (shown(value, column.kind) for column, value in cells if column.kind != "blank")


@pytest.mark.parametrize("state", ["one option", "five options", "not registered"])
def test_a_quote_with_options_stays_on_a_page(state: str) -> None:
    job, book = STATES[state]()
    assert len(dealt(build("quote", estimate(job, book))[0].blocks)) == 1
