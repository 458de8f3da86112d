"""The tables of a paper and their names."""

from __future__ import annotations

from tests.writers import sample_papers as samples
from tundish.documents.block import Column, Heading, Paragraph, SideBySide, Table
from tundish.writers.tables import in_order, named_tables

TABLE = Table((Column("a"),), ())


def test_a_table_is_named_by_its_title_or_the_heading_before_it() -> None:
    titled = Table((Column("a"),), (), title="Own\ttitle")
    named = named_tables(samples.paper(TABLE, Heading("Steel"), titled, SideBySide((TABLE,), (TABLE,))))
    assert [name for name, _ in named] == ["Sample", "Own title", "Steel", "Steel 2"]


def test_blocks_side_by_side_follow_one_another() -> None:
    inner = SideBySide((Paragraph("2"),), (Paragraph("3"),))
    blocks = list(in_order((Paragraph("1"), SideBySide((inner,), (Paragraph("4"),)))))
    assert blocks == [Paragraph("1"), Paragraph("2"), Paragraph("3"), Paragraph("4")]
