"""Drawings at true size: what a ruler finds on the pages."""

from __future__ import annotations

import pytest

from tests.writers import sample_papers as samples
from tests.writers.reading import corners, sizes, texts
from tundish.documents.block import Paragraph, TrueSize
from tundish.documents.drawing import Box, Drawing, Line
from tundish.writers.pdf import pdf_bytes
from tundish.writers.pdf_true_size import BAR, CELL, LAP, cut_of

Found = tuple[float, float, float, float]


def drawn(*marks: Line | Box, extent: tuple[float, float, float, float] = (0, 0, 150, 180), warning: str = "") -> bytes:
    drawing = Drawing("Holes", marks, extent)
    return pdf_bytes(samples.paper(TrueSize(drawing, "WC 1, drilling template", warning)), "")


def measured(pdf: bytes, wide: float, high: float, page: int = 0) -> Found:
    """Left, bottom, right, top of the path of that size, to a hundredth of a millimetre."""
    for each in corners(pdf, page):
        across, up = [x for x, _ in each], [y for _, y in each]
        found = min(across), min(up), max(across), max(up)
        if abs(found[2] - found[0] - wide) < 0.01 and abs(found[3] - found[1] - high) < 0.01:
            return found
    raise AssertionError(f"nothing {wide} by {high} on page {page + 1}")


def test_a_millimetre_drawn_is_a_millimetre_printed() -> None:
    left, low, right, top = measured(drawn(Box(10, 20, 123, 77, "ink", filled=False)), 123, 77)
    assert (right - left, top - low) == pytest.approx((123, 77), abs=0.01)


def test_two_marks_are_as_far_apart_on_paper_as_in_the_drawing() -> None:
    pdf = drawn(Line(20, 31, 20, 91, "ink"), Line(143, 31, 143, 91, "ink"))
    lines = [each for each in corners(pdf) if len(each) == 2 and abs(each[1][1] - each[0][1] - 60) < 0.01]
    (one, _), (other, _) = sorted(lines)
    assert other[0] - one[0] == pytest.approx(123, abs=0.01)
    assert other[1] == pytest.approx(one[1], abs=0.001)


def test_a_bar_each_way_shows_whether_the_print_was_scaled() -> None:
    pdf = drawn(Box(10, 20, 30, 30, "ink"))
    assert measured(pdf, BAR, 0)
    assert measured(pdf, 0, BAR)


def test_what_is_larger_than_a_page_goes_over_several_that_are_named() -> None:
    pdf = drawn(Box(0, 0, 300, 380, "ink"), extent=(0, 0, 300, 380))
    assert len(sizes(pdf)) == 4
    pages = texts(pdf)
    for name, words in zip(("A1", "B1", "A2", "B2"), pages, strict=True):
        assert words.splitlines()[4].startswith(name) or f"\n{name}" in words.replace("\r", "")
        assert "this way up" in words
        assert f"{BAR} mm" in words
        assert "WC 1, drilling template" in words
    assert "B1" in pages[0]
    assert "A2" in pages[0]
    assert "B2" not in pages[0]


def test_the_crosses_of_neighbouring_pages_are_the_same_places_of_the_drawing() -> None:
    extent = (0.0, 0.0, 300.0, 100.0)
    at = cut_of(Drawing("Holes", (), extent)).left + CELL[0]
    pdf = drawn(Line(at, 10, at, 90, "ink"), extent=extent)
    for page, edge in ((0, LAP + CELL[0]), (1, LAP)):
        left, _, right, _ = measured(pdf, 0, 80, page)
        window = measured(pdf, CELL[0] + 2 * LAP, CELL[1] + 2 * LAP, page)[0]
        assert (left + right) / 2 - window == pytest.approx(edge, abs=0.2)


def test_every_page_is_begun_afresh_and_nothing_leaves_the_paper() -> None:
    drawing = Drawing("Holes", (Box(-500, -500, 2_000, 2_000, "ink"),), (0, 0, 100, 100))
    pdf = pdf_bytes(samples.paper(Paragraph("before"), TrueSize(drawing, "WC 1"), Paragraph("after")), "")
    assert len(sizes(pdf)) == 3


def test_a_warning_is_on_every_page() -> None:
    pdf = drawn(Box(0, 0, 300, 380, "ink"), extent=(0, 0, 300, 380), warning="TBC: do not drill")
    assert all("TBC: do not drill" in words for words in texts(pdf))
