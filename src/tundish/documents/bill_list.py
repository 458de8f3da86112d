"""The bills of all jobs, for the accountant: every invoice and credit note, and every number that is not in use with its reason."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from tundish import measure
from tundish.catalogue.trader import Trader
from tundish.documents.block import Column, Document, Paragraph, Row, Table
from tundish.documents.paper import UNNAMED
from tundish.pricing.invoice import Invoice, bill_of
from tundish.pricing.numbers import holes

_BILLS = (
    Column("Number", "text", 1.0, "strong"),
    Column("Date", "text", 1.3),
    Column("Client", "text", 1.6),
    Column("For", "text", 2.0),
    Column("Before VAT, £", "money", 1.2),
    Column("VAT, £", "money", 1.0),
    Column("Total, £", "money", 1.2, "strong"),
    Column("Kept back, £", "money", 1.0),
    Column("Paid", "text", 1.2),
)
_NUMBERS = (
    Column("Number", "text", 1.0, "strong"),
    Column("What it was", "text", 2.6),
    Column("Given", "text", 1.2),
    Column("Why", "text", 3.6),
)


@dataclass(frozen=True, slots=True)
class Billed:
    """One bill or credit note, and whose."""

    client: str
    invoice: Invoice


@dataclass(frozen=True, slots=True)
class Unused:
    """A number that was given and that no job has now: what it was for, the day (ISO), and why it is not in use."""

    number: str
    what: str
    given: str
    why: str


def build(trader: Trader, billed: Iterable[Billed], unused: Iterable[Unused], day: str) -> Document:
    """The list on a day (ISO), bills by date and number; numbers that two jobs have, or that were never given here, are told too."""
    bills = sorted(billed, key=lambda each: (each.invoice.issued, each.invoice.number))
    told = _told(bills, tuple(unused))
    shown = measure.show_date(day)
    numbers = (
        Table(_NUMBERS, told, title="Numbers that are not in use, or not in order")
        if told
        else Paragraph("No number is missing, and none was given twice.", "note")
    )
    return Document(
        key="bills",
        title="Bills of all jobs",
        number="",
        subtitle=shown,
        sender=trader.name or UNNAMED,
        trade=trader.trade,
        name=f"Bills {day}",
        foot=f"Bills of all jobs, {shown}",
        blocks=(
            Table(_BILLS, tuple(map(_row, bills)), totals=(4, 5, 6, 7), title="Invoices and credit notes"),
            Paragraph("VAT is as each bill has it, rounded in the way that the bill says.", "note"),
            numbers,
        ),
        tables_only=True,
        colour=trader.colour,
    )


def _row(each: Billed) -> Row:
    bill, invoice = bill_of(each.invoice), each.invoice
    what = f"Credit for {invoice.credits}" if invoice.credits else invoice.what
    kept = bill.total - bill.due
    paid = f"{_day(invoice.paid)}, {invoice.how}" if invoice.paid else ""
    return Row((invoice.number, _day(invoice.issued), each.client, what, bill.net, bill.vat, bill.total, kept or Decimal(0), paid))


def _day(iso: str) -> str:
    """The date without the day of the week: "3 Dec 2026"."""
    return measure.show_date(iso).partition(" ")[2] if iso else ""


def _told(bills: Sequence[Billed], unused: Sequence[Unused]) -> tuple[Row, ...]:
    """Rows for what is not in use, what two jobs have, and what is missing without a record."""
    numbers = [each.invoice.number for each in bills]
    rows = [Row((each.number, each.what, _day(each.given[:10]), each.why)) for each in unused]
    for number in dict.fromkeys(number for number in numbers if numbers.count(number) > 1):
        whose = ", ".join(dict.fromkeys(each.client or "no name" for each in bills if each.invoice.number == number))
        rows.append(
            Row(
                (
                    number,
                    "Invoice or credit note",
                    "",
                    f"In {numbers.count(number)} jobs ({whose}): one was opened from a file or saved twice",
                )
            )
        )
    missing = holes((*numbers, *(each.number for each in unused)))
    rows += [
        Row((number, "Invoice or credit note", "", "Never given here: the job came from elsewhere with later ones")) for number in missing
    ]
    return tuple(sorted(rows, key=lambda row: str(row.cells[0])))
