"""A paper as it is read out: every part once, in order, and nothing that is only for the eye."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.writers import sample_papers as samples
from tests.writers.heard import artifacts, parts, tagged, unmarked
from tests.writers.reading import objects
from tests.writers.test_pdf_picture import photograph
from tundish.documents.block import Column, Document, Facts, Heading, Paragraph, Picture, Points, Row, SideBySide, Sketch, Sums, Table
from tundish.documents.drawing import Box, Drawing, Words
from tundish.writers.pdf import pdf_bytes

SQUARE = Drawing("Wall A", (Box(0, 0, 500, 500, "wall"), Words(250, 250, "here", turned=True)), (0, 0, 500, 500))


@pytest.mark.parametrize("paper", samples.papers(), ids=lambda paper: paper.name)
def test_it_says_what_it_is_called_and_its_language(paper: Document) -> None:
    made = pdf_bytes(paper, samples.PRINTED)
    assert tagged(made) == (True, "en-GB")
    assert b"/DisplayDocTitle true" in objects(made)
    assert made.startswith(b"%PDF-1.7")


@pytest.mark.parametrize(
    "paper", [*samples.papers(), samples.order(120), replace(samples.order(120), demo=True)], ids=lambda each: each.name
)
def test_whatever_is_drawn_is_a_part_or_an_artifact(paper: Document) -> None:
    assert unmarked(pdf_bytes(paper, samples.PRINTED)) == []


def test_the_head_is_read_on_the_first_page_and_the_foot_on_none() -> None:
    made = pdf_bytes(samples.order(120), samples.PRINTED)
    first, *rest = parts(made)
    paper = samples.order(120)
    assert [part.words for part in first.every("H1")] == [f"{paper.title} {paper.number}".strip()]
    assert not any(list(page.every("H1")) for page in rest)
    assert paper.sender in first.said()
    assert sum(f"Page {number} of" in words for words in artifacts(made) for number in range(9)) == len(rest) + 1


def test_every_heading_is_one_part() -> None:
    long = "Bathroom, wall A, " * 12
    (page,) = parts(pdf_bytes(samples.paper(Heading("First"), Paragraph("words"), Heading(long, 1), Paragraph("more")), ""))
    assert [" ".join(part.words.split()) for part in page.every("H2")] == ["First", long.strip()]


def test_lines_of_a_paragraph_are_parted_by_a_space() -> None:
    text = " ".join(f"word{number}" for number in range(200))
    (page,) = parts(pdf_bytes(samples.paper(Paragraph(text), Paragraph(text, "caution")), ""))
    assert [part.words for part in page.every("P")][-2:] == [text, text]


def test_a_table_has_its_heads_and_every_cell_in_its_row() -> None:
    columns = (Column("Item"), Column("No.", "count"), Column("Done", "tick"), Column("Note", "blank"))
    rows = (Row(("Pan", 1, 2, None), tbc=True, note="Colour"), Row(("", None, None, None)), Row((), group="Pipes"))
    (page,) = parts(pdf_bytes(samples.paper(Table(columns, rows, (1,), title="Ware")), ""))
    (table,) = page.every("Table")
    assert [part.words for part in table.every("Caption")] == ["Ware"]
    lines = list(table.every("TR"))
    assert [(part.words, part.scope) for part in lines[0].parts] == [(column.head, "Column") for column in columns]
    assert [[part.kind for part in line.parts] for line in lines[1:]] == [["TD"] * 4, ["TD"] * 4, ["TH"], ["TD"] * 4]
    assert [part.said() for part in lines[1].parts] == ["Pan TBC: Colour", "1", "", ""]
    assert [part.told for part in lines[1].parts] == ["", "", "2 boxes to tick", "to be filled in"]
    assert (lines[3].parts[0].scope, lines[3].parts[0].across) == ("Row", 4)


def test_the_sum_of_a_group_stands_under_its_column() -> None:
    columns = (Column("What"), Column("Of"), Column("£", "money"), Column("No.", "count"))
    rows = (Row(("", "", Decimal(3)), group="First fix"), Row(("Pipe", "copper", Decimal(3), 1), note="A long note on the pipe."))
    (page,) = parts(pdf_bytes(samples.paper(Table(columns, rows)), ""))
    _, group, _, note = page.every("TR")
    assert [(part.words, part.across) for part in group.parts] == [("First fix", 2), ("3.00", 1), ("", 1)]
    assert [(part.words, part.across) for part in note.parts] == [("A long note on the pipe.", 4)]


def test_a_table_over_pages_reads_its_heads_once_and_every_row_once() -> None:
    made = pdf_bytes(samples.order(200), samples.PRINTED)
    pages = parts(made)
    heads = [part.words for page in pages for part in page.every("TH") if part.scope == "Column"]
    assert heads == [column.head for block in samples.order(200).blocks if isinstance(block, Table) for column in block.columns]
    assert re.findall(r"ZZ-\d{4}", " ".join(page.said() for page in pages)) == [f"ZZ-{number:04}" for number in range(200)]
    assert artifacts(made).count("Code ") == len(pages) - 1


def test_a_drawing_is_told_in_words_with_its_caption_and_scale() -> None:
    (page,) = parts(pdf_bytes(samples.paper(Sketch(SQUARE, "The wall as built"), Sketch(SQUARE, told="A label")), ""))
    one, other = page.every("Figure")
    assert re.fullmatch(r"Wall A\. The wall as built · scale 1:[\d.]+", one.told)
    assert [part.words for part in one.every("Caption")] == [one.told.removeprefix("Wall A. ")]
    assert other.told == "A label"
    assert "here" in one.words


@pytest.mark.parametrize("told", ["half (of ) it \\", "Ø 40 – 1½″, £3", "שלום 浴室", "two\nlines"])
def test_what_is_told_is_heard_as_typed(told: str) -> None:
    (page,) = parts(pdf_bytes(samples.paper(Sketch(SQUARE, told=told)), ""))
    assert [part.told for part in page.every("Figure")] == [" ".join(told.split())]


def test_a_photograph_is_told_by_what_it_shows() -> None:
    made = pdf_bytes(samples.paper(Picture("stack", "Stack, tape at 189")), "", {"stack": photograph((400, 300))}.get)
    (page,) = parts(made)
    assert [part.told for part in page.every("Figure")] == ["Stack, tape at 189"]
    assert unmarked(made) == []


def test_facts_and_blocks_beside_one_another_are_read_a_column_at_a_time() -> None:
    facts = Facts((("For", ("Mrs J. Ostlethwaite", "14 Quillet Lane")), ("From", ("Harrowmere", "Kilnfold Yard"))))
    both = SideBySide((Heading("Left"), Paragraph("under left")), (Heading("Right"), Paragraph("under right")))
    (page,) = parts(pdf_bytes(samples.paper(facts, both), ""))
    said = page.said()
    order = ("For", "Mrs J.", "14 Quillet", "From", "Harrowmere", "Kilnfold", "Left", "under left", "Right", "under right")
    assert sorted(order, key=said.index) == list(order)


def test_points_are_a_list_and_sums_a_table_with_heads_for_its_rows() -> None:
    (page,) = parts(pdf_bytes(samples.paper(Points("Not in this price", ("Floor", "Light")), Sums((("VAT", Decimal(2)),))), ""))
    assert [part.words for part in page.every("LBody")] == ["Floor", "Light"]
    (row,) = page.every("TR")
    assert [(part.kind, part.words, part.scope) for part in row.parts] == [("TH", "VAT", "Row"), ("TD", "£2.00", "")]


def test_demo_is_heard_once_and_first() -> None:
    first, *rest = parts(pdf_bytes(replace(samples.order(120), demo=True), ""))
    assert first.parts[0].words == "DEMO"
    assert not any("DEMO" in page.said() for page in rest)


@settings(max_examples=25)
@given(st.text(), st.text(min_size=1), st.lists(st.text(), max_size=3))
def test_any_text_is_a_part(head: str, cell: str, items: list[str]) -> None:
    table = Table((Column(head), Column("n", "number")), (Row((cell, cell), note=head), Row((), group=cell)), title=head)
    made = pdf_bytes(samples.paper(Heading(cell), Points(head, tuple(items)), table, Sketch(SQUARE, head, told=cell)), cell)
    assert unmarked(made) == []
    assert len([part for page in parts(made) for part in page.every("Figure")]) == 1
