"""A paper as plain text."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.writers import sample_papers as samples
from tundish.documents.block import (
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
from tundish.documents.drawing import Drawing, Line
from tundish.writers.text import WIDTH, as_text, write_text

GOLDEN = """\
DEMO
M. Tarrowby                                                                             Sample 047-1
Plumbing and bathrooms                                            12 November 2026, good for 30 days
====================================================================================================

FAMILY BATHROOM
===============

Heights
-------

For: Mrs J. Ostlethwaite
  14 Quillet Lane
From:

! Not for drilling.

[drawing: Wall A, 1 marks]
Front

Marks
Mark        Bare floor  Done
----------  ----------  ------
[WC 1] TBC
  not signed
Top of pan         448  [ ]     TBC
Datum             −580  [ ][ ]
  Measured twice.
----------  ----------  ------
In all            −132

Not in this price
- Tiles

                                                                    Total before VAT           10.00
                                                                             You pay          £12.00

Accepted
  I accept.
  Signed ______________________________

[50 mm ruler: if your ruler disagrees, the print was scaled]
----------------------------------------------------------------------------------------------------
Sample 047-1 · Ostlethwaite, family bathroom                                           Printed 19:42
"""


def test_every_block_has_a_form_in_text() -> None:
    rows = (
        Row((), group="WC 1", tbc=True, note="not signed"),
        Row(("Top of pan", 448, None), tbc=True),
        Row(("Datum", -580, 2), note="Measured twice."),
    )
    table = Table((Column("Mark"), Column("Bare floor", "length"), Column("Done", "tick")), rows, (1,), "In all", "Marks")
    paper = samples.paper(
        Heading("Family bathroom", 1),
        Heading("Heights"),
        Facts((("For", ("Mrs J. Ostlethwaite", "14 Quillet Lane")), ("From", ()))),
        Paragraph("Not for drilling.", "caution"),
        SideBySide((Sketch(Drawing("Wall A", (Line(0, 0, 1, 1, "ink"),), (0, 0, 1, 1)), "Front"),), (table,)),
        Points("Not in this price", ("Tiles",)),
        Sums((("Total before VAT", Decimal(10)), ("You pay", Decimal(12)))),
        FillIn("Accepted", ("I accept.",), ("Signed",)),
        RulerCheck(),
        demo=True,
    )
    assert as_text(paper, "19:42") == GOLDEN


@pytest.mark.parametrize("paper", samples.papers(), ids=lambda paper: paper.name)
def test_no_line_is_longer_than_the_page(paper: Document) -> None:
    assert max(map(len, as_text(paper, samples.PRINTED).splitlines())) <= WIDTH


def test_sums_of_groups_stand_under_their_heading() -> None:
    rows = (Row(("", Decimal(3)), group="First"), Row(("a", Decimal(3))))
    words = as_text(samples.paper(Table((Column("What"), Column("£", "money")), rows)))
    assert "[First]\n      3.00\na     3.00\n" in words


def test_an_empty_table_says_so() -> None:
    assert "Nothing on this list." in as_text(samples.order(0))


@given(st.text(), st.lists(st.text(), max_size=3))
def test_any_text_can_be_written(words: str, more: list[str]) -> None:
    table = Table((Column(words), Column("n", "number")), (Row((words, words), note=words, tbc=True), Row((), group=words)), (1,), words)
    blocks = (
        Heading(words),
        Paragraph(words),
        Points(words, tuple(more)),
        Facts(((words, tuple(more)),)),
        table,
        Sums(((words, Decimal(1)),)),
    )
    as_text(samples.paper(*blocks, FillIn(words, tuple(more), tuple(more))), words).encode()


def test_the_file_holds_the_text(tmp_path: Path) -> None:
    write_text(samples.quote(), tmp_path / "quote.txt", samples.PRINTED)
    assert (tmp_path / "quote.txt").read_text(encoding="utf-8") == as_text(samples.quote(), samples.PRINTED)


def test_a_long_heading_goes_on_in_further_lines() -> None:
    long = " ".join(f"word{number}" for number in range(60))
    made = as_text(samples.paper(Heading(long))).splitlines()
    assert max(len(line) for line in made) <= 100
    assert long in " ".join(made)
