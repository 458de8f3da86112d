"""A paper as a workbook, read back by a library and by an office program."""

from __future__ import annotations

import csv
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from tests.writers import sample_papers as samples
from tests.writers.office import needs_office, opened
from tundish.documents.block import Amount, Column, Document, Heading, Paragraph, Row, Sums, Table
from tundish.writers.cell import shown, total
from tundish.writers.safe import legible
from tundish.writers.xlsx import write_xlsx, xlsx_bytes

HOSTILE = ("=1+1", "+1", "-1", "@SUM(A1)", "<b>&A1", "#N/A", "TRUE", "12", "_x0041_", "a\x00b", "\ud800", "'quoted", "שלום", "x" * 10_000)
UTF_8 = "csv:Text - txt - csv (StarCalc):44,34,76"
"""The office program's name for comma-separated values with double quotes in UTF-8."""


def _book(paper: Document) -> Workbook:
    return load_workbook(BytesIO(xlsx_bytes(paper, samples.PRINTED)))


def _sheet(table: Table) -> Worksheet:
    return _book(samples.paper(table)).worksheets[0]


def _row_of(sheet: Worksheet, words: str) -> int:
    return next(row for row in range(1, sheet.max_row + 1) if sheet.cell(row, 1).value == words)


def test_numbers_are_numbers_in_their_formats() -> None:
    sheet = _book(samples.order(3)).worksheets[0]
    row = _row_of(sheet, "ZZ-0000")
    cells = [sheet.cell(row, column) for column in range(3, 8)]
    assert [cell.value for cell in cells] == [2, 1161, 1.26, 0.5, 0.1]
    assert [cell.number_format for cell in cells] == ["#,##0", "#,##0", "#,##0.00", "#,##0.0", "#,##0.00"]
    assert all(cell.data_type == "n" for cell in cells)


def test_an_amount_with_a_unit_of_its_own_is_a_number_and_reads_as_on_paper() -> None:
    amounts = (Amount("2.05 m²", "m²"), Amount("1,200 mm", "mm"), Amount("14"), Amount("−0.5 kg", "kg"))
    table = Table((Column("What"), Column("Need")), tuple(Row((f"item {number}", amount)) for number, amount in enumerate(amounts)))
    sheet = _sheet(table)
    cells = [sheet.cell(_row_of(sheet, f"item {number}"), 2) for number in range(4)]
    assert [(cell.value, cell.number_format, cell.data_type) for cell in cells] == [
        (2.05, '#,##0.00" m²"', "n"),
        (1200, '#,##0" mm"', "n"),
        (14, "#,##0", "n"),
        (-0.5, '#,##0.0" kg"', "n"),
    ]
    assert [shown(amount, "text") for amount in amounts] == [amount.words for amount in amounts]


def test_a_total_is_a_formula_over_all_rows() -> None:
    sheet = _book(samples.order(150)).worksheets[0]
    first, last = _row_of(sheet, "Group 1"), _row_of(sheet, "Total")
    assert sheet.cell(last, 3).value == f"=SUM(C{first}:C{last - 1})"
    assert sheet.cell(last, 7).value == f"=SUM(G{first}:G{last - 1})"
    assert sheet.cell(last, 4).value is None


def test_sums_of_groups_are_formulas_that_the_total_leaves_out() -> None:
    rows = (
        Row(("", Decimal(3)), group="First"),
        Row(("a", Decimal(1))),
        Row(("b", Decimal(2))),
        Row(("", Decimal(4)), group="Second"),
        Row(("c", Decimal(4))),
        Row(("", Decimal(9)), group="Empty"),
    )
    sheet = _sheet(Table((Column("What"), Column("£", "money")), rows, (1,)))
    top, end = _row_of(sheet, "First"), _row_of(sheet, "Total")
    assert sheet.cell(top, 2).value == f"=SUBTOTAL(9,B{top + 1}:B{top + 2})"
    assert sheet.cell(top + 3, 2).value == f"=SUBTOTAL(9,B{top + 4}:B{top + 4})"
    assert sheet.cell(top + 5, 2).value is None
    assert sheet.cell(end, 2).value == f"=SUBTOTAL(9,B{top}:B{end - 1})"


def test_sums_go_on_under_their_table_and_are_formulas_where_they_add_up() -> None:
    rows = (Row(("Work", Decimal(100))), Row(("Rails", Decimal(20))))
    plain = Table((Column("For"), Column("£", "money")), rows)
    said = (("Before VAT", 120), ("VAT", 24), ("Total", 144), ("Kept back", -4), ("To pay", 140))
    bill = Sums(tuple((label, Decimal(amount)) for label, amount in said), plain)
    sheet = _book(samples.paper(plain, bill)).worksheets[0]
    top = _row_of(sheet, "Before VAT")
    assert [sheet.cell(row, 2).value for row in range(top, top + 5)] == [
        f"=SUM(B{top - 2}:B{top - 1})", 24, f"=B{top}+B{top + 1}", -4, f"=B{top + 2}+B{top + 3}",
    ]  # fmt: skip
    assert f"${top + 4}" in str(sheet.print_area)
    totalled = replace(plain, totals=(1,))
    order = Sums((("Carriage", Decimal(120)), ("To pay", Decimal(240)), ("Wrong", Decimal(1))), totalled)
    sheet = _book(samples.paper(totalled, order)).worksheets[0]
    top = _row_of(sheet, "Carriage")
    assert [sheet.cell(row, 2).value for row in range(top, top + 3)] == [120, f"=B{top - 1}+B{top}", 1]


def test_sums_of_no_table_have_a_sheet() -> None:
    book = _book(samples.paper(Sums((("Net", Decimal(10)), ("VAT", Decimal(2)), ("You pay", Decimal(12))))))
    sheet = book["Sums"]
    assert book.sheetnames == ["Sums"]
    top = _row_of(sheet, "Net")
    assert [sheet.cell(row, 2).value for row in range(top, top + 3)] == [10, 2, f"=B{top}+B{top + 1}"]


def test_the_head_is_frozen_and_repeats_in_print() -> None:
    sheet = _book(samples.order(150)).worksheets[0]
    head = _row_of(sheet, "Code")
    assert sheet.freeze_panes == f"A{head + 1}"
    assert sheet.print_title_rows == f"${head}:${head}"
    assert (sheet.page_setup.paperSize, sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight) == (9, 1, 0)
    assert sheet.sheet_properties.pageSetUpPr is not None
    assert sheet.sheet_properties.pageSetUpPr.fitToPage
    assert f"${sheet.max_row}" in str(sheet.print_area)
    assert sheet.oddFooter is not None
    assert sheet.oddFooter.right.text in {"Page &P of &N", "Page &[Page] of &[Pages]"}
    assert sheet.oddFooter.left.text == samples.order(0).foot


def test_title_rows_stand_over_the_head() -> None:
    sheet = _book(replace(samples.order(1), demo=True)).worksheets[0]
    assert [sheet.cell(row, 1).value for row in range(1, 5)] == [
        "DEMO: Sample 047-1: Harrowmere merchant",
        "M. Tarrowby",
        "12 November 2026, good for 30 days",
        f"Printed {samples.PRINTED}",
    ]


def test_each_table_has_a_sheet_with_a_name_of_its_own() -> None:
    table = Table((Column("a"),), (Row(("1",)),))
    blocks = (
        Heading("Steel / timber: [all]"),
        table,
        table,
        Heading("x" * 50),
        table,
        table,
        Heading("History"),
        table,
        Heading("'"),
        table,
    )
    names = _book(samples.paper(*blocks)).sheetnames
    assert names == ["Steel timber all", "Steel timber all 2", "x" * 31, "x" * 29 + " 2", "History list", "Sheet", "Paper"]


def test_what_is_no_table_is_on_a_sheet_of_its_own() -> None:
    sheet = _book(samples.setting_out())["Paper"]
    lines = [str(sheet.cell(row, 1).value) for row in range(1, sheet.max_row + 1)]
    assert "Stand on: bare floor." in lines
    assert "Mark" not in " ".join(lines)


def test_a_paper_without_blocks_is_still_a_book() -> None:
    assert _book(samples.paper()).sheetnames == ["Paper"]


def test_what_is_to_be_confirmed_and_notes_have_columns() -> None:
    sheet = _book(samples.cut_list()).worksheets[0]
    row = _row_of(sheet, "U1–U4")
    assert [sheet.cell(row, column).value for column in (7, 8, 9)] == ["☐ ☐ ☐ ☐", "TBC", "Cut last."]


def test_columns_are_as_wide_as_what_is_in_them() -> None:
    sheet = _sheet(Table((Column("a"), Column("b")), (Row(("x" * 30, "y" * 500)), Row((), group="z" * 90))))
    widths = [sheet.column_dimensions[letter].width for letter in "AB"]
    assert widths == [33, 60]


def test_an_empty_table_says_so() -> None:
    sheet = _book(samples.order(0)).worksheets[0]
    assert _row_of(sheet, "Nothing on this list.") == _row_of(sheet, "Total") - 1


@pytest.mark.parametrize("typed", HOSTILE)
def test_typed_text_is_never_a_formula(typed: str) -> None:
    paper = samples.paper(Table((Column(typed),), (Row((typed,), note=typed), Row((), group=typed)), title=typed), Paragraph(typed))
    book = _book(replace(paper, title=typed, sender=typed, subtitle=typed, foot=typed))
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} == {"s"}
    assert len(cells) > 8


@settings(max_examples=40)
@given(st.text(max_size=80).filter(lambda typed: bool(legible(typed).strip())))
def test_any_text_is_read_back_as_typed(typed: str) -> None:
    table = Table((Column("What"), Column("n", "count")), (Row((typed, typed)),))
    sheet = _sheet(table)
    row = _row_of(sheet, "What") + 1
    read = [str(sheet.cell(row, column).value).replace("_x005F_", "_").strip() for column in (1, 2)]
    assert read == [legible(typed).strip()] * 2  # the library leaves out white space at the ends


def test_the_same_paper_gives_the_same_bytes() -> None:
    assert xlsx_bytes(samples.cut_list(), "x") == xlsx_bytes(samples.cut_list(), "x")


def test_the_file_holds_the_paper(tmp_path: Path) -> None:
    write_xlsx(samples.cut_list(), tmp_path / "cut.xlsx", "x")
    assert (tmp_path / "cut.xlsx").read_bytes() == xlsx_bytes(samples.cut_list(), "x")


@needs_office
def test_money_comes_to_the_same_pennies_in_an_office_program(tmp_path: Path) -> None:
    amounts = [Decimal(number * 7919 % 100_003) / 1000 for number in range(1, 900)]
    rows: list[Row] = []
    for number, amount in enumerate(amounts):
        if number % 90 == 0:
            part = sum((each.quantize(Decimal("0.01"), ROUND_HALF_UP) for each in amounts[number : number + 90]), Decimal(0))
            rows.append(Row(("", part), group=f"Group {number}"))
        rows.append(Row((f"Item {number}", amount)))
    plain = Table((Column("What"), Column("£", "money")), tuple(row for row in rows if not row.group), (1,), title="Plain")
    grouped = replace(plain, rows=tuple(rows), title="Grouped")
    (saved,) = opened([xlsx_bytes(samples.paper(plain, grouped), "")], tmp_path, "xlsx")
    book = load_workbook(saved, data_only=True)
    for name, table in (("Plain", plain), ("Grouped", grouped)):
        sheet = book[name]
        worked_out = Decimal(repr(sheet.cell(_row_of(sheet, "Total"), 2).value)).quantize(Decimal("0.01"))
        assert shown(worked_out, "money") == shown(total(table, 1), "money")
    sheet = book["Grouped"]
    for row in rows:
        if row.group:
            assert Decimal(repr(sheet.cell(_row_of(sheet, row.group), 2).value)).quantize(Decimal("0.01")) == row.cells[1]


@needs_office
def test_typed_text_shows_as_typed_in_an_office_program(tmp_path: Path) -> None:
    typed = [word for word in HOSTILE if len(word) < 100 and legible(word) == word]
    (made,) = opened([xlsx_bytes(samples.paper(Table((Column("What"),), tuple(Row((word,)) for word in typed))), "")], tmp_path, UTF_8)
    with made.open(encoding="utf-8", newline="") as file:
        read = [row[0] for row in csv.reader(file) if row]
    assert read[-len(typed) :] == typed


def test_a_column_of_amounts_stands_at_the_right_with_its_head_and_its_dashes() -> None:
    columns = (Column("Item"), Column("Need"), Column("Pack of"))
    rows = (Row(("pipe", Amount("1,200 mm", "mm"), "3,000 mm")), Row(("bend", "–", "1")))
    made = _sheet(Table(columns, rows))
    head = _row_of(made, "Item")
    assert [made.cell(row, 2).alignment.horizontal for row in range(head, head + 3)] == ["right"] * 3
    assert all(made.cell(row, 3).alignment.horizontal != "right" for row in range(head, head + 3))


def test_a_row_is_as_high_as_its_words_need() -> None:
    rows = (Row(("short", 1)), Row(("a long name that goes on " * 10, 2)), Row(("endless " * 1_250, 3)))
    made = _sheet(Table((Column("Item"), Column("No.", "count")), rows))
    first = _row_of(made, "short")
    heights = [made.row_dimensions[row].height for row in range(first, first + 3)]
    assert heights[0] is None
    assert 4 * 13 < heights[1] < 7 * 14
    assert heights[2] == 409


def test_a_long_foot_is_cut_short_beside_the_number_of_the_page() -> None:
    made = _book(replace(samples.order(3), foot="Order list " * 40)).worksheets[0]
    foot = made.oddFooter
    assert foot is not None
    assert foot.left is not None
    assert len(str(foot.left.text)) < 110
    assert str(foot.left.text).endswith("…")
