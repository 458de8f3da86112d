"""Photographs on paper."""

from __future__ import annotations

from io import BytesIO

import pytest
from PIL import Image
from pypdfium2 import PdfDocument, raw  # type: ignore[import-untyped]

from tests.writers import sample_papers as samples
from tests.writers.heard import parts, unmarked
from tests.writers.reading import MM, texts, words_at
from tundish.documents.block import Picture, SideBySide
from tundish.writers.pdf import pdf_bytes

STACK = Picture("stack", "Stack, tape at 189")


def photograph(size: tuple[int, int], *, turned: bool = False, kind: str = "JPEG") -> bytes:
    image, kept = Image.new("RGB", size, (90, 120, 60)), BytesIO()
    exif = Image.Exif()
    if turned:
        exif[0x0112] = 6
    image.save(kept, kind, exif=exif)
    return kept.getvalue()


def pictures(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of each picture on the first page, in millimetres."""
    book = PdfDocument(pdf)
    try:
        bounds = [each.get_bounds() for each in book[0].get_objects(filter=[raw.FPDF_PAGEOBJ_IMAGE])]
    finally:
        book.close()
    return [((right - left) / MM, (top - low) / MM) for left, low, right, top in bounds]


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
def test_a_photograph_is_printed_in_its_own_shape_with_what_it_shows(kind: str) -> None:
    pdf = pdf_bytes(samples.paper(STACK), "", {"stack": photograph((4000, 3000), kind=kind)}.get)
    ((wide, high),) = pictures(pdf)
    assert wide / high == pytest.approx(4 / 3, rel=0.01)
    assert "Stack, tape at 189" in texts(pdf)[0]
    assert len(pdf) < 300_000


def test_one_taken_with_the_telephone_upright_stands_upright() -> None:
    ((wide, high),) = pictures(pdf_bytes(samples.paper(STACK), "", {"stack": photograph((400, 300), turned=True)}.get))
    assert high > wide


def test_two_stand_side_by_side() -> None:
    both = SideBySide((STACK,), (Picture("other", "Fall"),))
    assert len(pictures(pdf_bytes(samples.paper(both), "", dict.fromkeys(("stack", "other"), photograph((400, 300))).get))) == 2


@pytest.mark.parametrize("body", [None, b"", b"not a picture", photograph((400, 300))[:200]])
def test_one_that_is_missing_or_spoilt_is_said(body: bytes | None) -> None:
    pdf = pdf_bytes(samples.paper(STACK), "", lambda _: body)
    assert pictures(pdf) == []
    assert "Photograph not at hand" in texts(pdf)[0]
    assert "Stack, tape at 189" in texts(pdf)[0]


def test_a_logo_stands_at_the_head_of_every_page_within_its_room_and_is_told_once() -> None:
    paper, logo = samples.order(120), {"logo": photograph((1200, 300))}.get
    pdf = pdf_bytes(paper, "", logo)
    ((wide, high),) = pictures(pdf)
    assert wide == pytest.approx(32, abs=0.1)
    assert high == pytest.approx(8, abs=0.1)
    pages = parts(pdf)
    assert len(pages) > 2
    assert [part.told for page in pages for part in page.every("Figure")] == [f"Logo of {paper.sender}"]
    assert unmarked(pdf) == []
    assert paper.sender in texts(pdf)[-1]
    assert len(pdf) - len(pdf_bytes(paper, "")) < 20_000
    assert pdf == pdf_bytes(paper, "", logo)


def test_words_make_room_for_the_logo() -> None:
    plain = words_at(pdf_bytes(samples.paper(), ""))
    with_logo = words_at(pdf_bytes(samples.paper(), "", {"logo": photograph((1200, 300))}.get))
    assert min(left for left, bottom, *_ in plain if bottom > 270) < 25
    assert min(left for left, bottom, *_ in with_logo if bottom > 270) > 12 + 32


def test_a_tall_logo_stays_above_the_rule_and_a_spoilt_one_is_left_out() -> None:
    ((_, high),) = pictures(pdf_bytes(samples.paper(), "", {"logo": photograph((300, 1200))}.get))
    assert high == pytest.approx(9.5, abs=0.1)
    assert pdf_bytes(samples.paper(), "", {"logo": b"no picture"}.get) == pdf_bytes(samples.paper(), "")
