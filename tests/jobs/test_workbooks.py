"""Papers with money as workbooks, opened by an office program: every formula comes to what the paper says, to the penny."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from io import BytesIO
from pathlib import Path
from typing import Final

from openpyxl import load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from tests.writers.office import needs_office, opened
from tundish.catalogue.load import supplied_book
from tundish.documents.block import Document, Sums
from tundish.documents.index import build_all
from tundish.estimate import estimate
from tundish.pricing.invoice import Charge, Invoice
from tundish.store.keep import demo_jobs
from tundish.writers.cell import total
from tundish.writers.tables import in_order, named_tables
from tundish.writers.xlsx import xlsx_bytes

PENNY: Final = Decimal("0.01")
BILL: Final = Invoice(
    number="102-1",
    charges=(
        Charge(what="Work", net=Decimal("999.99"), percent=Decimal(20)),
        Charge(what="Rails", net=Decimal("33.33"), percent=Decimal(5)),
    ),
    kept_back=Decimal("12.34"),
)


def papers() -> list[Document]:
    """Those of the family bathroom that carry money, a bill at two rates of which some is kept back among them."""
    job = next(job for job in demo_jobs() if job.number == "102")
    worked = estimate(replace(job, invoices=(BILL,)), supplied_book())
    return [each for each in build_all(worked) if each.key.startswith(("order-", "invoice-", "materials", "quote"))]


def sums_of(document: Document) -> dict[str, Decimal]:
    """What the paper says each total and sum is, by its label."""
    tables = {table.total_label: total(table, place) for _, table in named_tables(document) for place in table.totals}
    return tables | {label: amount for block in in_order(document.blocks) if isinstance(block, Sums) for label, amount in block.rows}


def formulas(sheet: Worksheet) -> Iterator[tuple[str, int, int]]:
    """Every formula that has a label in its row: the label and where it stands."""
    for row in sheet.iter_rows():
        label = next((str(cell.value) for cell in row if cell.data_type == "s" and cell.value), "")
        yield from ((label, cell.row, cell.column) for cell in row if cell.data_type == "f" and cell.row and cell.column)


@needs_office
def test_every_sum_is_a_formula_that_comes_to_the_penny(tmp_path: Path) -> None:
    written = papers()
    books = [xlsx_bytes(each, "") for each in written]
    found: dict[str, list[str]] = {}
    for document, made, saved in zip(written, books, opened(books, tmp_path, "xlsx"), strict=True):
        worked_out, said = load_workbook(saved, data_only=True), sums_of(document)
        for sheet in load_workbook(BytesIO(made)).worksheets:
            for label, row, column in formulas(sheet):
                value = worked_out[sheet.title].cell(row, column).value
                assert Decimal(repr(value)).quantize(PENNY) == said[label], (document.key, label)
                found.setdefault(document.key.split("-", maxsplit=1)[0], []).append(label)
    assert found["materials"] == ["Cost without VAT"]
    assert found["quote"] == ["Total before VAT", "You pay"]
    assert found["invoice"] == ["Before VAT", "Total", "To pay"]
    assert found["order"] == ["Goods, without VAT", "Without VAT"] * 3
