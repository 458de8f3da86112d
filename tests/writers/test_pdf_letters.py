"""Letters that the type of papers lacks: drawn by a reserve face, from right to left where they are read so, never a silent box."""

from __future__ import annotations

import re
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.writers import sample_papers as samples
from tests.writers.heard import actual_texts
from tests.writers.reading import darkness, objects, texts
from tundish.documents.block import Column, Document, Paragraph, Row, Sketch, Table
from tundish.documents.drawing import Drawing, Words
from tundish.writers.pdf import pdf_bytes
from tundish.writers.pdf_letters import drawable, lacking, notice, on_the_line

NAMES = ("שלום כהן", "مرحبا بالعالم", "Ελλάς", "Иван Петров", "✓ ☎ ⚠", "😀🚽🛁")


def said(words: str, *, cell: bool = False) -> bytes:
    block = Table((Column("Name"),), (Row((words,)),)) if cell else Paragraph(words)
    return pdf_bytes(samples.paper(block), samples.PRINTED)


def fonts(pdf: bytes) -> set[bytes]:
    return set(re.findall(rb"/FontName /\w+\+([\w-]+)", objects(pdf)))


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("cell", [False, True])
def test_a_name_in_other_letters_is_printed_and_read_as_it_was_typed(name: str, cell: bool) -> None:
    made = said(name, cell=cell)
    assert name in "\n".join(texts(made))
    assert lacking(name) == ""


@pytest.mark.parametrize("name", NAMES)
def test_only_a_paper_with_such_letters_holds_another_face(name: str) -> None:
    usual = fonts(said("Plain words, 12 × 35, £3 – ½"))
    assert usual
    assert all(b"Atkinson" in font for font in usual)
    assert fonts(said(name)) > usual


def test_a_reserve_face_is_put_in_with_no_more_letters_than_the_paper_has() -> None:
    assert len(said("שלום כהן")) < len(said("Plain words")) + 10_000


@pytest.mark.parametrize(
    ("typed", "from_left"),
    [
        ("שלום", "םולש"),
        ("Mr כהן, flat", "Mr ןהכ, flat"),
        ("כהן (בית) 12", "12 (תיב) ןהכ"),
        ("a (שלום) b", "a (םולש) b"),
        ("plain (words) 12", "plain (words) 12"),
    ],
)
def test_words_that_run_to_the_left_stand_in_that_order_with_numbers_and_brackets_right(typed: str, from_left: str) -> None:
    assert on_the_line(typed) == from_left


@given(st.text(st.sampled_from("אבגדה כןשם"), min_size=1))
def test_hebrew_alone_is_turned_about(typed: str) -> None:
    letters = typed.strip()
    assert on_the_line(letters).strip() == letters[::-1]


def test_arabic_letters_join_and_are_read_out_apart() -> None:
    for word in ("بيت", "سلام", "كتب"):
        joined = drawable(word)
        assert joined != word
        assert drawable(joined) == joined
        assert actual_texts(said(word, cell=True)).count(word) == 1


@pytest.mark.parametrize("cell", [False, True])
def test_what_stands_from_left_to_right_is_heard_in_the_order_it_is_read(cell: bool) -> None:
    words = "כהן (בית) 12, דירה 3"
    assert words in actual_texts(said(words, cell=cell))
    assert actual_texts(said("plain words")) == []


def test_words_over_several_lines_are_heard_whole() -> None:
    words = " ".join(["שלום כהן"] * 60)
    assert words in actual_texts(said(words))


def test_a_letter_that_no_face_has_is_said_and_prints_as_the_replacement_sign() -> None:
    made = said("Mrs 漢字 and ไ")
    assert "Mrs �� and �" in texts(made)[0]
    assert lacking("Mrs 漢字 and ไ, 漢") == "漢字ไ"


def test_a_paper_says_what_it_lacks_wherever_it_stands() -> None:
    drawing = Drawing("Wall", (Words(0, 0, "ไ"),), (0, 0, 100, 100))
    for block in (Paragraph("漢"), Table((Column("漢"),), ()), Table((Column("a"),), (Row(("漢",)),)), Sketch(drawing, caption="漢")):
        assert "漢" in notice(samples.paper(block))
    assert notice(samples.paper(Paragraph("漢"), Sketch(drawing))) == "No type here has 漢 ไ: printed as �"
    plain: tuple[Document, ...] = samples.papers()
    assert [notice(paper) for paper in plain] == [""] * len(plain)


def test_signs_that_only_pick_a_look_are_left_out() -> None:
    assert drawable("👍🏽☎\ufe0f👩\u200d🔧") == "👍☎👩🔧"


def test_a_line_cut_short_or_set_at_the_right_keeps_to_its_place() -> None:
    for words in NAMES:
        long = samples.paper(Table((Column("a"), Column("b", "money")), (Row((f"{words} " * 40, 1)),)))
        assert all(dark < 0.3 for dark in darkness(pdf_bytes(long, "")))


@given(st.text(), st.sampled_from(list(permutations(NAMES, 2))))
def test_any_mixture_is_drawable_and_stays_so(words: str, names: tuple[str, str]) -> None:
    once = drawable(words.join(names))
    assert drawable(once) == once
    assert len(on_the_line(once)) == len(once)
