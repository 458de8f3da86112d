"""The tables of a paper as comma-separated values."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from tests.writers import sample_papers as samples
from tundish.documents.block import Column, Paragraph, Row, Table
from tundish.writers.csv import as_csv, write_csv
from tundish.writers.safe import for_csv


def _rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline="")))


def test_numbers_are_bare_and_rounded_as_shown() -> None:
    head, first, *_ = _rows(as_csv(samples.order(2)))
    assert head == ["Group", "Code", "Item", "Need", "Length", "Area", "Hours", "Price"]
    assert first == ["Group 1", "ZZ-0000", "Bend 0, 110 mm, 90 degrees", "2", "1161", "1.26", "0.5", "0.10"]
    assert '"ZZ-0000","Bend 0, 110 mm, 90 degrees",2,1161,' in as_csv(samples.order(2))


def test_sums_are_left_out() -> None:
    assert "Total" not in as_csv(samples.order(2))


def test_what_is_to_be_confirmed_and_notes_have_columns() -> None:
    head, *rows = _rows(as_csv(samples.setting_out()))
    assert head[-2:] == ["To be confirmed", "Note"]
    assert "Done" not in head
    assert [row[-2:] for row in rows if row[1] in {"Top of pan", "Branch invert at stack", "Top of steel"}] == [
        ["TBC", "heights not signed"],
        ["", "Measured twice, to the bottom of the bore."],
        ["", ""],
    ]


def test_several_tables_are_named_and_apart() -> None:
    one = Table((Column("a"),), (Row(("1",)),), title="=One")
    two = Table((Column("b"),), (Row((None,)),), title="Two")
    assert as_csv(samples.paper(one, two)) == '"\'=One"\r\n"a"\r\n"1"\r\n\r\n"Two"\r\n"b"\r\n""\r\n'


def test_a_paper_without_tables_is_empty() -> None:
    assert not as_csv(samples.paper(Paragraph("Words")))


def test_blanks_and_what_is_no_number_are_empty() -> None:
    columns = (Column("What"), Column("n", "number"), Column("£", "money"))
    rows = (Row(("x", None, float("nan"))), Row(("-5", "on site", Decimal("-1.005"))))
    assert _rows(as_csv(samples.paper(Table(columns, rows))))[1:] == [["x", "", ""], ["-5", "on site", "-1.01"]]


@given(st.text(), st.text())
def test_any_text_is_read_back_held_back_where_it_would_run(head: str, cell: str) -> None:
    made = as_csv(samples.paper(Table((Column(head), Column("n", "count")), (Row((cell, cell)),))))
    assert _rows(made) == [[for_csv(head), "n"], [for_csv(cell)] * 2]


def test_the_file_is_read_as_utf_8_by_a_spreadsheet(tmp_path: Path) -> None:
    write_csv(samples.quote(), tmp_path / "quote.csv", samples.PRINTED)
    content = (tmp_path / "quote.csv").read_bytes()
    assert content.startswith(b"\xef\xbb\xbf")
    assert content.decode("utf-8-sig") == as_csv(samples.quote())
    assert samples.PRINTED.encode() not in content
