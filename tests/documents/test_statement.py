"""The statement of account: what stands, what is late, what a business owes for it and a private person does not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from tundish.documents import statement
from tundish.documents.block import Sums, Table
from tundish.documents.index import build
from tundish.estimate import Estimate
from tundish.pricing.invoice import Charge, Invoice, credit
from tundish.writers.text import as_text

Changed = Callable[..., Estimate]


def bill(number: str, net: str, issued: str = "2026-10-01", paid: str = "") -> Invoice:
    charges = (Charge(what="work", net=Decimal(net), percent=Decimal(20)),)
    return Invoice(number=number, issued=issued, what="With your acceptance", charges=charges, paid=paid)


BILLS = (bill("7-1", "1000"), bill("7-2", "500", paid="2026-10-20"), bill("7-3", "300"), credit(bill("7-3", "300"), "7-4", "2026-10-02"))


def said(made: Estimate) -> str:
    (document,) = build("statement", made)
    return " ".join(as_text(document).split())


def stands(made: Estimate) -> list[object]:
    """How each bill stands."""
    (table,) = [each for each in build("statement", made)[0].blocks if isinstance(each, Table)]
    return [row.cells[3] for row in table.rows]


def test_a_business_sees_the_sums_and_how_they_come_about(changed: Changed) -> None:
    made = changed("101", invoices=BILLS, terms__client_is="a business", terms__stated="2026-11-10")
    words = said(made)
    assert "As of Tue 10 Nov 2026" in words
    assert "7-1: £1,200.00 at 11.75 % a year is £0.39 a day, to the penny; 10 days from the day after it was due: £3.90." in words
    assert "Fixed sum £70.00." in words
    assert "Late Payment of Commercial Debts (Interest) Act 1998" in words
    (document,) = build("statement", made)
    (table,) = [each for each in document.blocks if isinstance(each, Table)]
    (sums,) = [each for each in document.blocks if isinstance(each, Sums)]
    assert [row.cells[0] for row in table.rows] == ["7-1", "7-2"], "what was taken back is not on it"
    assert table.rows[1].cells[3:] == ("paid Tue 20 Oct 2026", Decimal(0), Decimal(0), Decimal(0))
    assert sums.rows == (
        ("Bills not paid", Decimal("1200.00")),
        ("Interest and fixed sums", Decimal("73.90")),
        ("To pay", Decimal("1273.90")),
    )


def test_a_bill_paid_late_owes_interest_and_the_fixed_sum_until_that_is_settled(changed: Changed) -> None:
    late = bill("7-1", "1000", paid="2026-11-10")
    made = changed("101", invoices=(late,), terms__client_is="a business", terms__stated="2026-12-01")
    assert stands(made) == ["paid Tue 10 Nov 2026, 10 days late"]
    assert "10 days from the day after it was due to the day it was paid: £3.90." in said(made)
    (sums,) = [each for each in build("statement", made)[0].blocks if isinstance(each, Sums)]
    assert sums.rows == (
        ("Bills not paid", Decimal(0)),
        ("Interest and fixed sums", Decimal("73.90")),
        ("To pay", Decimal("73.90")),
    )
    assert stands(changed("101", invoices=(late,), terms__client_is="a business", terms__stated="2026-11-05")) == ["5 days late"]
    settled = changed("101", invoices=(replace(late, settled="2026-11-20"),), terms__client_is="a business", terms__stated="2026-12-01")
    assert stands(settled) == ["paid Tue 10 Nov 2026"]
    assert "Act 1998" not in said(settled)
    assert stands(changed("101", invoices=(late,), terms__stated="2026-12-01")) == ["paid Tue 10 Nov 2026"], "a private person"


def test_a_private_person_is_reminded_and_nothing_is_added(changed: Changed) -> None:
    words = said(changed("101", invoices=BILLS, terms__stated="2026-11-10"))
    assert "26 days late" in words
    assert "Nothing is added for being late" in words
    assert "Interest" not in words
    assert "To pay 1,200.00" in words or "To pay £1,200.00" in words


def test_before_it_is_due_nothing_is_late(changed: Changed) -> None:
    words = said(changed("101", invoices=BILLS[:1], terms__client_is="a business", terms__stated="2026-10-31"))
    assert "not late" in words
    assert "Act 1998" not in words
    one = said(changed("101", invoices=BILLS[:1], terms__stated="2026-10-16"))
    assert "1 day late" in one


def test_without_a_bill_that_stands_there_is_no_statement(worked: dict[str, Estimate], changed: Changed) -> None:
    assert build("statement", worked["101"]) == ()
    assert build("statement", changed("101", invoices=BILLS[2:])) == ()


def test_without_a_day_it_is_as_of_today_and_a_bill_without_one_is_never_late(changed: Changed) -> None:
    made = changed("101", invoices=(bill("7-1", "10", issued=""),))
    assert statement.day_of(replace(made, book=replace(made.book, date="2026-12-01"))) == "2026-12-01"
    assert "not late" in said(replace(made, book=replace(made.book, date="")))
