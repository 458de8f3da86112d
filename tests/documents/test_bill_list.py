"""The bills of all jobs: every one, their sums, and every number that is not in use with its reason."""

from __future__ import annotations

from decimal import Decimal

from tundish.catalogue.trader import Trader
from tundish.documents.bill_list import Billed, Unused, build
from tundish.documents.block import Document, Paragraph, Table
from tundish.pricing.invoice import Charge, Invoice, credit


def bill(number: str, day: str, net: int = 10, client: str = "Mrs Vale") -> Billed:
    charges = (Charge(what="all", net=Decimal(net), percent=Decimal(20)),)
    return Billed(client, Invoice(number=number, issued=day, what="With your acceptance", charges=charges))


def tables(document: Document) -> list[Table]:
    return [each for each in document.blocks if isinstance(each, Table)]


def test_bills_stand_by_date_and_credit_notes_take_away() -> None:
    first, second = bill("8-1", "2026-12-03"), bill("7-1", "2026-12-01")
    note = Billed("Mrs Vale", credit(second.invoice, "7-2", "2026-12-02"))
    made = build(Trader(name="Tarrow"), (first, note, second), (), "2026-12-31")
    (table,) = tables(made)
    assert [row.cells[0] for row in table.rows] == ["7-1", "7-2", "8-1"]
    assert [row.cells[4:7] for row in table.rows] == [(10, 2, 12), (-10, -2, -12), (10, 2, 12)]
    assert table.rows[1].cells[3] == "Credit for 7-1"
    assert made.blocks[-1] == Paragraph("No number is missing, and none was given twice.", "note")


def test_numbers_that_are_missing_or_stand_twice_are_told_with_their_reason() -> None:
    billed = (bill("7-2", "2026-12-01"), bill("7-4", "2026-12-01"), bill("7-4", "2026-12-01", client="Mr Hale"))
    unused = (Unused("7-1", "Invoice", "2026-12-01T09:00:00", "Undone: make invoice 7-1, Tue 1 Dec 09:01"),)
    rows = tables(build(Trader(), billed, unused, "2026-12-31"))[1].rows
    assert [(row.cells[0], str(row.cells[3]).split(":")[0]) for row in rows] == [
        ("7-1", "Undone"),
        ("7-3", "Never given here"),
        ("7-4", "In 2 jobs (Mrs Vale, Mr Hale)"),
    ]


def test_what_a_contractor_keeps_back_and_when_it_was_paid_stand_in_the_list() -> None:
    charges = (Charge(what="labour", net=Decimal(100), percent=Decimal(20)),)
    paid = Invoice(number="7-1", what="All", charges=charges, kept_back=Decimal(20), paid="2026-12-05")
    (row,) = tables(build(Trader(), (Billed("", paid),), (), "2026-12-31"))[0].rows
    assert row.cells[5:] == (Decimal(20), Decimal(120), Decimal(20), "5 Dec 2026, bank transfer")
    assert row.cells[1] == ""
