"""A paper as a page: well-formed, with table heads a screen reader can follow, nothing fetched, nothing run."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.writers import sample_papers as samples
from tundish.documents.block import Column, Document, Heading, Paragraph, Picture, Points, Row, SideBySide, Sketch, Table
from tundish.documents.drawing import Drawing, Words
from tundish.writers.html import as_html, write_html

VOID = {"meta", "br", "wbr", "line", "rect", "polygon", "ellipse", "img"}


class Reader(HTMLParser):
    """Reads a page strictly: every element that begins ends, in order."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.words: list[str] = []
        self.seen: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)


def read(document: Document) -> Reader:
    reader = Reader()
    reader.feed(as_html(document, samples.PRINTED))
    reader.close()
    assert reader.open == []
    return reader


@pytest.mark.parametrize("paper", [samples.quote, samples.cut_list])
def test_a_paper_is_well_formed_and_says_its_words(paper: Callable[[], Document]) -> None:
    document = paper()
    reader = read(document)
    said = " ".join(reader.words)
    assert document.sender in said
    assert dict(reader.seen)["html"] == {"lang": "en-GB"}
    assert not {"script", "link", "iframe", "object"} & {tag for tag, _ in reader.seen}
    assert not re.search(r"(https?:|url\()", as_html(document))


def test_a_table_has_heads_and_its_total() -> None:
    table = Table((Column("Work"), Column("£", "money")), (Row(("First fix", 2)), Row(("Frames", 3))), totals=(1,), title="Price")
    reader = read(samples.paper(table))
    assert [attrs for tag, attrs in reader.seen if tag == "th"] == [{"scope": "col"}, {"scope": "col", "class": "n"}]
    assert "5.00" in reader.words
    assert "Price" in reader.words


@given(st.text(max_size=200))
def test_what_was_typed_is_never_markup(words: str) -> None:
    hostile = f"<script>alert(1)</script>&\"'{words}"
    table = Table((Column(hostile),), (Row((hostile,), group=hostile), Row((hostile,), note=hostile)))
    blocks = (Heading(hostile), Paragraph(hostile), Points(hostile, (hostile,)), table, Picture("none", hostile))
    reader = read(samples.paper(*blocks, name=hostile))
    assert "script" not in {tag for tag, _ in reader.seen}
    assert any("<script>alert(1)</script>" in each for each in reader.words)


def test_a_photograph_is_within_the_page(tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    write_html(samples.paper(Picture("stack", "The stack")), path, "", lambda key: b"\xff\xd8jpeg" if key == "stack" else None)
    assert 'alt="The stack" src="data:image/jpeg;base64,' in path.read_text(encoding="utf-8")


def test_the_logo_is_in_the_page_itself_and_told() -> None:
    page = as_html(samples.quote(), "", {"logo": b"\xff\xd8\xff"}.get)
    assert '<img class="logo" alt="Logo of M. Tarrowby" src="data:image/jpeg;base64,/9j/">' in page
    assert "<img" not in as_html(samples.quote())


def test_an_overlong_word_in_a_table_may_go_on_in_the_next_line_and_is_whole_when_copied() -> None:
    long = "x" * 95
    reader = read(samples.paper(Table((Column("What"),), (Row((f"{long} <b> {'y' * 30}",)),))))
    assert [tag for tag, _ in reader.seen].count("wbr") == 3
    assert f"{long} <b> {'y' * 30}" in "".join(reader.words)


def test_the_head_of_a_page_has_the_traders_colour() -> None:
    assert "#1a57a3" in as_html(replace(samples.quote(), colour="blue"))
    assert "#1a57a3" not in as_html(samples.quote())


def sizes_of_type(page: str) -> list[float]:
    return [float(size) for size in re.findall(r'font-size="([\d.]+)"', page)]


def test_words_of_a_drawing_in_half_the_page_are_as_large_as_those_of_one_across_it() -> None:
    drawing = Drawing("Wall", (Words(250, 250, "WC 1"),), (0, 0, 500, 500))
    across, half = (as_html(samples.paper(block)) for block in (Sketch(drawing), SideBySide((Sketch(drawing),), ())))
    assert sizes_of_type(half) == pytest.approx([2 * size for size in sizes_of_type(across)], abs=0.2)
    after = as_html(samples.paper(SideBySide((Sketch(drawing),), ()), Sketch(drawing)))
    assert sizes_of_type(after) == sizes_of_type(half) + sizes_of_type(across)


def test_words_of_a_drawing_that_have_a_width_keep_it_in_any_typeface() -> None:
    drawing = Drawing("Label", (Words(50, 50, "Waste, Bidet 1, Waste pipe 32", most=60),), (0, 0, 100, 100))
    page = as_html(samples.paper(Sketch(drawing)))
    (held,) = re.findall(r'textLength="([\d.]+)"', page)
    assert 0 < float(held) <= 60


def test_words_that_stand_out_of_a_drawing_are_within_its_picture() -> None:
    drawing = Drawing("Wall", (Words(480, 250, "1,228 TBC", anchor="start"),), (0, 0, 500, 500))
    (box,) = re.findall(r'viewBox="([^"]+)"', as_html(samples.paper(Sketch(drawing))))
    left, _, wide, _ = map(float, box.split())
    assert left + wide > 500
