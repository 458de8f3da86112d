"""Every paper of every demonstration job, word for word. With GOLDEN=1 they are written anew: read each change before it is kept."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from difflib import unified_diff
from pathlib import Path
from typing import Final

import pytest

from tests.writers.heard import Part, parts, tagged, unmarked
from tests.writers.reading import said
from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import Effort
from tundish.documents.block import Block, FillIn, Heading, SideBySide, Table
from tundish.documents.index import build_all
from tundish.estimate import Estimate, estimate
from tundish.store.keep import demo_jobs
from tundish.writers.pdf import pdf_bytes
from tundish.writers.pdf_blocks import dealt
from tundish.writers.pdf_flow import filled
from tundish.writers.text import as_text

GOLDEN: Final = Path(__file__).parent / "golden"
PRINTED: Final = "2026-11-25 09:00"
MOST_BYTES: Final = 300_000
"""What a paper without photographs may weigh, to be sent from a telephone on site."""
FEW: Final = 0.08
"""A last page that is filled no more than so has a few lines on it."""
JOBS: Final = {job.number: job for job in demo_jobs()}


@pytest.fixture(scope="module", params=sorted(JOBS))
def worked(request: pytest.FixtureRequest) -> Estimate:
    return estimate(JOBS[request.param], supplied_book(), Effort.BEST)


def test_every_paper_reads_as_it_did(worked: Estimate) -> None:
    told: list[str] = []
    for document in build_all(worked):
        file = GOLDEN / worked.job.number / f"{document.key}.txt"
        text = as_text(document)
        if os.environ.get("GOLDEN"):
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8")
        told += unified_diff(file.read_text(encoding="utf-8").splitlines(), text.splitlines(), file.name, "now", lineterm="", n=1)
    assert not told, "\n".join(told)


def test_every_paper_is_a_small_file_and_the_same_one_each_time(worked: Estimate) -> None:
    again = estimate(JOBS[worked.job.number], supplied_book(), Effort.BEST)
    for one, other in zip(build_all(worked), build_all(again), strict=True):
        made = pdf_bytes(one, PRINTED)
        assert len(made) < MOST_BYTES, one.key
        assert made == pdf_bytes(other, PRINTED), one.key


def test_every_paper_is_heard_part_by_part(worked: Estimate) -> None:
    for document in build_all(worked):
        made = pdf_bytes(document, PRINTED)
        pages, blocks = parts(made), tuple(_every(document.blocks))
        assert tagged(made) == (True, "en-GB")
        assert said(made)["Title"] == f"{document.title} {document.number}".strip()
        assert unmarked(made) == [], document.key
        assert _words(pages, "H1") == Counter([f"{document.title} {document.number}".strip()])
        assert _words(pages, "H2") + _words(pages, "H3") == Counter(each.text for each in blocks if isinstance(each, Heading))
        heads = Counter(column.head for each in blocks if isinstance(each, Table) for column in each.columns if column.head)
        assert _words(pages, "TH", "Column") == heads, document.key


def test_no_box_to_sign_is_left_alone_on_a_last_page(worked: Estimate) -> None:
    for document in build_all(worked):
        if isinstance(document.blocks[-1], FillIn):
            *_, last = dealt(document.blocks)
            assert len(last) > 1, document.key


def test_no_paper_ends_on_a_page_with_a_few_lines(worked: Estimate) -> None:
    for document in build_all(worked):
        *before, last = dealt(document.blocks)
        assert not before or filled(last) > FEW, document.key


def test_no_cost_mark_up_or_hour_reaches_the_client(worked: Estimate) -> None:
    quote = as_text(build_all(worked)[0]).lower()
    stages = worked.price.stages
    assert "mark-up" not in quote
    assert "hour" not in quote
    assert not [each.stage for each in stages if f"{each.labour:,.2f}" in quote and each.labour not in {each.price, 0}]


def _every(blocks: Iterable[Block]) -> Iterator[Block]:
    for block in blocks:
        if isinstance(block, SideBySide):
            yield from _every((*block.left, *block.right))
        else:
            yield block


def _words(pages: Sequence[Part], kind: str, scope: str = "") -> Counter[str]:
    """What is said in the parts of a kind, on one line each."""
    found = (part for page in pages for part in page.every(kind) if not scope or part.scope == scope)
    return Counter(words for part in found if (words := " ".join(part.words.split())))
