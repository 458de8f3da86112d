"""A statement of account: every bill that stands, how late it is on a day, and what a business owes for that, worked out."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Final

from tundish import measure
from tundish.documents.block import Block, Column, Document, Facts, Paragraph, Row, Sums, Table
from tundish.documents.paper import lines_of, paper, trader_of
from tundish.estimate import Estimate
from tundish.pricing.invoice import Invoice, bill_of, standing
from tundish.pricing.late import A_BUSINESS, OVER_BASE, Late, due_of, late_of, paid_by

_COLUMNS: Final = (
    Column("Bill", "text", 1, "strong"),
    Column("For", "text", 2.6),
    Column("Due", "text", 1.5),
    Column("How it stands", "text", 1.8),
    Column("Of the bill, £", "money", 1.2, "strong"),
)
_ADDED: Final = (Column("Interest, £", "money", 1), Column("Fixed sum, £", "money", 1.1))


def build_all(estimate: Estimate) -> tuple[Document, ...]:
    """The statement, where there is a bill that stands."""
    bills = standing(estimate.job.invoices)
    return (_statement(estimate, bills),) if bills else ()


def day_of(estimate: Estimate) -> str:
    """The day that a statement is as of: the one asked for, else today's."""
    return estimate.job.terms.stated or estimate.book.date


def lateness(late: Late) -> str:
    """How late a bill is, in words."""
    return f"{_days(late)} late"


def _statement(estimate: Estimate, bills: tuple[Invoice, ...]) -> Document:
    terms, day = estimate.job.terms, day_of(estimate)
    late = {each.number: found for each in bills if (found := late_of(each, terms, day))}
    business = terms.client_is == A_BUSINESS and bool(late)
    table = Table((*_COLUMNS[:-1], *(_ADDED if business else ()), _COLUMNS[-1]), tuple(_rows(estimate, bills, late, business=business)))
    open_ = sum((bill_of(each).due for each in bills if not paid_by(each, day)), Decimal(0))
    more = sum((each.more for each in late.values()), Decimal(0))
    sums = [("Bills not paid", open_), ("Interest and fixed sums", more)] if more else []
    blocks: tuple[Block, ...] = (
        _facts(estimate, day),
        table,
        Sums((*sums, ("To pay", open_ + more)), table),
        *(Paragraph(each, "note") for each in _notes(bills, late, day, business=business)),
    )
    return paper(estimate, "statement", "Statement", blocks, tables_only=True)


def _rows(estimate: Estimate, bills: tuple[Invoice, ...], late: dict[str, Late], *, business: bool) -> Iterator[Row]:
    for each in bills:
        found, due = late.get(each.number), due_of(each, estimate.job.terms)
        paid = paid_by(each, day_of(estimate))
        when = [f"paid {measure.show_date(each.paid)}"] if paid else []
        stands = ", ".join((*when, *((lateness(found),) if found else ()))) or "not late"
        owed = Decimal(0) if paid else bill_of(each).due
        added = ((found.interest, found.fixed) if found else (Decimal(0), Decimal(0))) if business else ()
        yield Row((each.number, each.what, measure.show_date(due) if due else "", stands, *added, owed))


def _facts(estimate: Estimate, day: str) -> Facts:
    trader, client = trader_of(estimate), estimate.job.client
    sender = (trader.name, *lines_of(trader.address), *(word for word in (trader.phone, trader.email) if word))
    as_of = (f"As of {measure.show_date(day)}",) if day else ()
    return Facts((("To", (client.name, *lines_of(client.address))), ("From", sender), ("Dates", as_of)))


def _notes(bills: tuple[Invoice, ...], late: dict[str, Late], day: str, *, business: bool) -> Iterator[str]:
    for each in bills if business else ():
        if found := late.get(each.number):
            yield (
                f"{each.number}: {measure.show_money(bill_of(each).due)} at {found.percent.normalize():f} % a year is"
                f" {measure.show_money(found.a_day)} a day, to the penny; {_days(found)} from the day after it was due"
                f"{' to the day it was paid' if paid_by(each, day) else ''}: {measure.show_money(found.interest)}."
                f" Fixed sum {measure.show_money(found.fixed)}."
            )
    if business:
        yield (
            f"Interest at {OVER_BASE} % over the Bank of England's base rate of 30 June or 31 December before the bill became late, and the"
            " fixed sum: Late Payment of Commercial Debts (Interest) Act 1998, worked as on gov.uk, late commercial payments."
        )
    elif late:
        yield "Nothing is added for being late: that law is for debts between businesses. Please pay, or tell me if something is wrong."


def _days(late: Late) -> str:
    return "1 day" if late.days == 1 else f"{late.days} days"
