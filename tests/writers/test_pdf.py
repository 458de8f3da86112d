"""A paper as PDF: what a reader finds on its pages."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.writers import sample_papers as samples
from tests.writers.reading import coloured, contrast, darkness, grey, objects, paths, said, sizes, texts, words_at
from tundish.catalogue.trader import COLOURS
from tundish.documents.block import (
    Block,
    Column,
    Document,
    Facts,
    FillIn,
    Heading,
    Paragraph,
    Points,
    Row,
    RulerCheck,
    SideBySide,
    Sketch,
    Sums,
    Table,
)
from tundish.documents.drawing import Box, Dimension, Drawing, Shape, Words
from tundish.writers.pdf import pdf_bytes, write_pdf
from tundish.writers.pdf_blocks import dealt, strips_of
from tundish.writers.pdf_flow import WIDTH, filled, pages
from tundish.writers.pdf_pen import COLOUR, rgb

HOSTILE = "<b>&A1 =1+1 \x00\x1b\ud800 שלום مرحبا 😀👩‍🔧 \u202eevil\u202c → ✓ ″ e\u0301 \\n ( ) " + "W" * 400
EDGE = 11.4
"""Millimetres: a margin of 12, less half a line."""
HEAD_MM = 24
"""Of a page, from its top edge to under the rule of its head."""
WHITE = (1.0, 1.0, 1.0)
ENDLESS = "pipe " * 2_000


@pytest.mark.parametrize("paper", samples.papers(), ids=lambda paper: paper.name)
def test_every_page_has_the_head_and_the_foot(paper: Document) -> None:
    pages = texts(pdf_bytes(paper, samples.PRINTED))
    for number, words in enumerate(pages, start=1):
        assert paper.sender in words
        assert paper.trade in words
        assert f"{paper.title} {paper.number}".strip() in words
        assert paper.subtitle in words
        assert paper.foot in words
        assert f"Printed {samples.PRINTED} · Page {number} of {len(pages)}" in words


@pytest.mark.parametrize("paper", samples.papers(), ids=lambda paper: paper.name)
def test_pages_are_a4_drawn_on_and_keep_the_margins(paper: Document) -> None:
    made = pdf_bytes(paper, samples.PRINTED)
    assert set(sizes(made)) == {(210, 297)}
    assert all(0.005 < dark < 0.5 for dark in darkness(made))
    assert _within_margins(made, 0)


def test_the_papers_of_the_mock_ups_stand_on_one_page() -> None:
    for paper in (samples.quote(), samples.setting_out(), samples.cut_list(), samples.heights()):
        assert len(texts(pdf_bytes(paper, samples.PRINTED))) == 1, paper.name


@pytest.mark.parametrize("label", ["VAT", "Kept back and paid to HMRC (CIS, not registered, 30 %)"])
def test_the_rule_over_what_is_paid_is_as_long_as_what_it_adds_up(label: str) -> None:
    made = pdf_bytes(samples.paper(Sums(((label, Decimal(-40)), ("To pay", Decimal(200))))), samples.PRINTED)
    head, foot = 297 - HEAD_MM, 30
    rule = next(each for each in paths(made) if foot < each[1] < head and each[2] - each[0] > 50)
    first = min(each[0] for each in words_at(made) if each[1] > rule[3] and each[3] < head)
    assert rule[0] <= first


def test_the_quote_reads_as_it_is_meant_to() -> None:
    words = texts(pdf_bytes(samples.quote(), samples.PRINTED))[0]
    for piece in (
        "Mrs J. Ostlethwaite",
        "14 Quillet Lane",
        "273.00",
        "Total before VAT",
        "2,587.01",
        "£3,104.41",
        "Signed",
        "– Floor tiling",
    ):
        assert piece in words.replace("–\r\n", "– "), piece
    assert "scale 1:" in words


@cache
def order_in(colour: str) -> list[tuple[int, int]]:
    return coloured(pdf_bytes(replace(samples.order(100), colour=colour), samples.PRINTED), HEAD_MM)


@pytest.mark.parametrize("colour", COLOURS)
def test_heads_are_in_the_traders_colour_on_every_page_and_nothing_else_is(colour: str) -> None:
    plain, seen = order_in(COLOURS[0]), order_in(colour)
    assert len(seen) > 1
    assert all((head > 100) == (colour != COLOURS[0]) for head, _ in seen)
    assert [below for _, below in seen] == [below for _, below in plain], "colour is of the head alone"


@pytest.mark.parametrize("colour", COLOURS)
def test_a_head_in_any_colour_is_read_on_white_and_on_a_grey_copy(colour: str) -> None:
    shades = rgb(COLOUR[colour])
    assert contrast(WHITE, shades) >= 7
    assert grey(shades) <= grey(rgb("ink2")), "no lighter than the note under it"


def test_all_type_is_embedded() -> None:
    made = objects(pdf_bytes(samples.quote(), samples.PRINTED))
    faces = re.findall(rb"/BaseFont /(\S+)", made)
    assert faces
    assert all(b"AtkinsonHyperlegibleNextTabular" in face for face in faces)
    assert made.count(b"/FontFile2") == len(faces)


def test_figures_are_tabular() -> None:
    made = pdf_bytes(samples.paper(Paragraph("1111111111"), Paragraph("8888888888")), "")
    ones, eights = [right - left for left, bottom, right, _ in words_at(made) if 240 < bottom < 275]
    assert abs(ones - eights) < 0.6


def test_the_pdf_says_what_it_is() -> None:
    made = pdf_bytes(samples.quote(), samples.PRINTED)
    assert said(made)["Title"] == "Quote 047-1"
    assert said(made)["Author"] == "M. Tarrowby"
    assert b"/Lang (en-GB)" in objects(made)


@pytest.mark.parametrize("paper", samples.papers(), ids=lambda paper: paper.name)
def test_the_same_paper_gives_the_same_bytes_and_few_of_them(paper: Document) -> None:
    made = pdf_bytes(paper, samples.PRINTED)
    assert made == pdf_bytes(paper, samples.PRINTED)
    assert len(made) < 300_000
    assert b"ASCII85" not in made, "spelt in letters"


def test_a_long_table_repeats_its_head_and_loses_no_row() -> None:
    pages = texts(pdf_bytes(samples.order(200), samples.PRINTED))
    assert len(pages) > 3
    assert all("Code" in words and "Price" in words for words in pages)
    found = re.findall(r"ZZ-\d{4}", "".join(pages))
    assert found == [f"ZZ-{number:04}" for number in range(200)]
    assert "Total" in pages[-1]
    assert "400" in pages[-1]
    assert "20.00" in pages[-1]


def test_a_heading_across_is_never_the_last_of_a_page() -> None:
    for rows in range(30, 60):
        lines = (*(Row((f"row {number}",)) for number in range(rows)), Row((), group="Heading across"), Row(("under it",)))
        pages = texts(pdf_bytes(samples.paper(Table((Column("What"),), lines)), ""))
        assert any("Heading across" in words and "under it" in words for words in pages)


def test_a_heading_and_the_line_under_it_stay_with_what_follows() -> None:
    drawing = Drawing("Square", (Box(0, 0, 500, 500, "ink"),), (0, 0, 500, 500))
    for lines in range(25, 45):
        above = tuple(Paragraph(f"line {number}") for number in range(lines))
        pages = texts(pdf_bytes(samples.paper(*above, Heading("Strut"), Paragraph("12 pieces.", "note"), Sketch(drawing, "Bars")), ""))
        assert any("Strut" in words and "12 pieces." in words and "Bars · scale" in words for words in pages), lines


def test_a_row_is_never_broken() -> None:
    rows = tuple(Row((f"{number} first\n{number} second\n{number} third", number)) for number in range(60))
    pages = texts(pdf_bytes(samples.paper(Table((Column("Words"), Column("No.", "count")), rows)), ""))
    assert len(pages) > 1
    for number in range(60):
        on = [place for place, words in enumerate(pages) if re.search(rf"\b{number} (first|second|third)", words)]
        assert len(on) == 1, number


def test_an_empty_table_says_so() -> None:
    words = texts(pdf_bytes(samples.order(0), samples.PRINTED))[0]
    assert "Nothing on this list." in words
    assert "0.00" in words


def test_what_is_to_be_confirmed_carries_the_word() -> None:
    words = texts(pdf_bytes(samples.setting_out(), samples.PRINTED))[0]
    assert "TBC: heights not signed" in words
    assert re.search(r"Outlet\s+TBC", words)
    assert "250 TBC" in words


def test_sums_of_groups_stand_beside_their_heading() -> None:
    rows = (Row(("", Decimal(3)), group="First fix"), Row(("Pipe", Decimal(3))))
    made = pdf_bytes(samples.paper(Table((Column("What"), Column("£", "money")), rows, (1,))), "")
    assert re.search(r"First fix\s+3\.00\s+Pipe\s+3\.00\s+Total\s+3\.00", texts(made)[0])


def test_demo_stands_across_every_page_and_only_when_it_is_one() -> None:
    demo = replace(samples.order(120), demo=True)
    assert all("DEMO" in words for words in texts(pdf_bytes(demo, samples.PRINTED)))
    assert not any("DEMO" in words for words in texts(pdf_bytes(samples.order(120), samples.PRINTED)))


def test_the_ruler_is_fifty_millimetres() -> None:
    made = pdf_bytes(samples.paper(RulerCheck()), "")
    rule, *ruler = [right - left for left, bottom, right, top in paths(made) if top - bottom < 1 and right - left > 40][:2]
    assert abs(rule - 186) < 1  # the rule under the head, margin to margin; both are widened by the pen alike
    assert [round(186 - rule + long, 2) for long in ruler] == [50]
    assert "if your ruler disagrees" in texts(made)[0]


def test_a_drawing_is_to_the_scale_it_states() -> None:
    drawing = Drawing("Square", (Box(0, 0, 1000, 1000, "ink"),), (-100, -100, 1200, 1200))
    made = pdf_bytes(samples.paper(Sketch(drawing, "A square")), "")
    stated = re.search(r"A square · scale 1:([\d.]+)", texts(made)[0])
    assert stated
    side = 1000 / float(stated[1])
    assert any(abs(right - left - side) < 0.5 and abs(top - bottom - side) < 0.5 for left, bottom, right, top in paths(made))


def test_a_drawing_is_never_split() -> None:
    drawing = Drawing("Tall", (Box(0, 0, 1000, 2000, "ink"),), (0, 0, 1000, 2000))
    blocks: tuple[Block, ...] = tuple(Paragraph("A line of text.") for _ in range(20))
    made = pdf_bytes(samples.paper(*blocks, Sketch(drawing, "Whole")), "")
    assert len(texts(made)) == 2
    tall = [top - bottom for left, bottom, right, top in paths(made, 1) if right - left < 110 and top - bottom > 50]
    assert tall
    assert "Whole · scale" in texts(made)[1]


def test_blocks_side_by_side_stand_at_the_same_height() -> None:
    made = pdf_bytes(samples.paper(SideBySide((Paragraph("Left hand"),), (Paragraph("Right hand"),))), "")
    tops = [(left, round(bottom, 1)) for left, bottom, _, _ in words_at(made) if 240 < bottom < 275]
    assert len(tops) == 2
    assert [left > 100 for left, _ in tops] == [False, True]
    assert abs(tops[0][1] - tops[1][1]) < 1


def test_blocks_side_by_side_too_long_for_a_page_follow_one_another() -> None:
    both = SideBySide((Paragraph(ENDLESS * 2), Heading("Left end")), (Heading("Right start"), Paragraph("Here")))
    words = "".join(texts(pdf_bytes(samples.paper(both), "")))
    assert words.count("pipe") == 4_000
    assert words.index("Left end") < words.index("Right start")


def test_typed_text_prints_as_typed() -> None:
    typed = "<b>&A1 =1+1 <font color=red> &amp; 100% \\ (round) 'quoted' \"twice\""
    words = texts(pdf_bytes(replace(samples.paper(Paragraph(typed)), sender=typed), ""))[0]
    assert words.count("<b>&A1 =1+1 <font color=red> &amp; 100%") == 2


def test_a_name_too_long_for_the_head_is_cut_with_dots() -> None:
    made = pdf_bytes(replace(samples.paper(), sender="Tarrowby " * 40, title="Quote " * 40, foot="foot " * 100), "")
    assert texts(made)[0].count("…") == 3
    assert _within_margins(made, 0)


def test_the_most_hostile_paper_is_still_made() -> None:
    columns = (Column(HOSTILE), Column("n", "length"), Column(HOSTILE, "money"), Column("t", "tick"), Column("", "blank"))
    rows = (
        Row((HOSTILE, HOSTILE, HOSTILE, HOSTILE, HOSTILE), tbc=True, note=HOSTILE),
        Row((), group=HOSTILE, tbc=True, note=ENDLESS),
        Row((ENDLESS, 1e300, Decimal("NaN"), 10**9, None), tbc=True, note=ENDLESS),
        Row((None, float("nan"), float("inf"), 0, 1)),
    )
    marks = (
        Words(0, 0, HOSTILE),
        Words(5, 5, ENDLESS, turned=True),
        Dimension(0, 0, 0, 10, HOSTILE, tbc=True),
        Shape((), "wall"),
        Shape(((0, 0),), "hatch"),
        Box(0, 0, 0, 0, "wall"),
    )
    blocks: tuple[Block, ...] = (
        Heading(HOSTILE),
        Heading(ENDLESS, 1),
        Paragraph(ENDLESS, "caution"),
        Points(HOSTILE, (ENDLESS, HOSTILE)),
        Points("", ()),
        Sums(((HOSTILE, Decimal("1e30")), (ENDLESS, Decimal("NaN")), (HOSTILE, Decimal(-5)))),
        Sums(()),
        Facts(((HOSTILE, (HOSTILE, ENDLESS)), (ENDLESS, ()), ("x", ("y",)))),
        Facts(()),
        Table(columns, rows, (1, 2), HOSTILE, HOSTILE),
        Table((), ()),
        Table((Column("a"),) * 40, (Row(tuple("x" * 40)),)),
        Sketch(Drawing(HOSTILE, marks, (0, 0, 0, 0)), HOSTILE, scale=3),
        Sketch(Drawing("Huge", (), (0, 0, 1e9, 1e9))),
        SideBySide((), ()),
        FillIn(HOSTILE, (ENDLESS,), (HOSTILE, ENDLESS)),
        FillIn("", (), ()),
        FillIn("", (), ("x",) * 100),
    )
    paper = replace(samples.paper(*blocks, demo=True), title=HOSTILE, number=HOSTILE, sender=HOSTILE, trade=ENDLESS, foot=HOSTILE)
    made = pdf_bytes(paper, HOSTILE)
    assert len(texts(made)) > 10
    for page in range(len(texts(made))):
        assert all(bottom > EDGE for _, bottom, _, _ in words_at(made, page) if bottom > 0), page


@settings(max_examples=40)
@given(st.text(), st.text(), st.lists(st.text(), max_size=4))
def test_any_text_makes_a_page(head: str, cell: str, items: list[str]) -> None:
    table = Table((Column(head), Column("n", "number")), (Row((cell, cell), note=head), Row((), group=cell)))
    blocks = (Heading(head), Paragraph(cell), Points(head, tuple(items)), table, FillIn(head, (cell,), tuple(items)))
    assert len(texts(pdf_bytes(replace(samples.paper(*blocks), sender=head, foot=cell), cell))) >= 1


def test_the_file_holds_the_paper(tmp_path: Path) -> None:
    write_pdf(samples.quote(), tmp_path / "quote.pdf", samples.PRINTED)
    assert (tmp_path / "quote.pdf").read_bytes() == pdf_bytes(samples.quote(), samples.PRINTED)


def _within_margins(made: bytes, page: int) -> bool:
    everything = [*paths(made, page), *words_at(made, page)]
    return all(left > EDGE and bottom > EDGE and right < 210 - EDGE and top < 297 - 11 for left, bottom, right, top in everything)


def test_a_last_page_of_a_few_lines_is_saved_by_closing_up() -> None:
    saved = 0
    for rows in range(60, 120):
        blocks = (Table((Column("What"),), tuple(Row((f"row {number}",)) for number in range(rows))), Points("Left over", ("nails",)))
        before, after = pages(strips_of(blocks, WIDTH)), dealt(blocks)
        saved += len(before) - len(after)
        assert len(after) <= len(before)
        assert filled(after[-1]) > 0.04, rows
    assert saved > 5


def test_a_paper_that_fills_its_pages_is_not_closed_up() -> None:
    blocks = (Table((Column("What"),), tuple(Row((f"row {number}",)) for number in range(80))),)
    (_, last), plain = dealt(blocks), pages(strips_of(blocks, WIDTH))
    assert filled(last) > 0.25
    assert [[placed.top for placed in page] for page in dealt(blocks)] == [[placed.top for placed in page] for page in plain]


def test_the_last_row_of_a_table_is_not_alone_on_a_page() -> None:
    for lines in range(30, 50):
        rows = tuple(Row((f"row {number}",)) for number in range(20))
        made = texts(
            pdf_bytes(samples.paper(*(Paragraph(f"line {number}") for number in range(lines)), Table((Column("What"),), rows)), "")
        )
        assert any("row 18" in words and "row 19" in words for words in made), lines


@pytest.mark.parametrize("before", range(32, 46))
def test_the_first_row_of_a_table_or_of_a_group_is_not_alone_at_the_foot_of_a_page(before: int) -> None:
    rows = (Row((), group="Group"), *(Row((f"row {number}",)) for number in range(9)))
    for made in (rows, rows[1:]):
        above = Table((Column("Above"),), tuple(Row((f"line {number}",)) for number in range(before)))
        below = (Paragraph(f"after {number}") for number in range(20))
        for page in texts(pdf_bytes(samples.paper(above, Table((Column("Thing"),), made), *below), "")):
            assert ("row 0" in page) == ("row 1" in page)
            assert ("Group" in page) <= ("row 0" in page)


@pytest.mark.parametrize("before", range(50, 58))
def test_neither_the_first_point_nor_the_last_is_alone_on_a_page(before: int) -> None:
    above, below = Paragraph("\n".join(map(str, range(before)))), (Paragraph(f"line {number}") for number in range(20))
    items = tuple(f"point {number}" for number in range(5))
    for page in texts(pdf_bytes(samples.paper(above, Points("What this rests on", items), *below), "")):
        assert ("point 0" in page) == ("point 1" in page)
        assert ("point 3" in page) == ("point 4" in page)
        assert ("What this rests on" in page) == ("point 0" in page)


def test_a_column_of_facts_takes_the_room_that_others_can_spare() -> None:
    long = "Start Mon 18 Jan 2027, 8 working days, two to lift"
    words = texts(pdf_bytes(samples.paper(Facts((("For", ("Miss P.",)), ("From", ("A yard",)), ("Dates", (long,))))), ""))[0]
    assert long in words
    full = Facts(tuple((head, (long,)) for head in ("For", "From", "Dates")))
    assert long not in texts(pdf_bytes(samples.paper(full), ""))[0], "with none to spare all have the same"


def test_a_heading_of_many_lines_stays_whole_with_what_follows() -> None:
    long = " ".join(f"word{number}" for number in range(60))
    for lines in range(30, 50):
        above = (Paragraph(f"line {number}") for number in range(lines))
        made = texts(pdf_bytes(samples.paper(*above, Heading(long), Paragraph("under it")), ""))
        assert any("word0 " in words and "word59" in words and "under it" in words for words in made), lines
