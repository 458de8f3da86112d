"""Every number that a bill, a variation or a quote was ever given in any job: none is given twice, and one not in use says why."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from tundish import measure
from tundish.errors import TundishError
from tundish.estimate import Job
from tundish.pricing.invoice import bill_of

if TYPE_CHECKING:
    from sqlalchemy import Connection

BILL: Final = "bill"
VARIATION: Final = "variation"
QUOTE: Final = "quote"
IN_JOB: Final = (BILL, VARIATION)
"""The kinds that stand in the job itself, and so may go out of it again."""


class NumberTakenError(TundishError):
    """A quote is to go out under a number that one of another job went out under."""

    def __init__(self, number: str) -> None:
        super().__init__(f"A quote {number} went out for another job: give this job a number of its own, then print it again.")


@dataclass(frozen=True, slots=True)
class Given:
    """A number as it was given: its kind, the job's place in the store and its number then, what for, when (ISO).

    `gone` says since when no job has it any more, `why` by which step; both empty while it is in use.
    """

    number: str
    kind: str
    job: int
    job_number: str
    what: str
    made: str
    gone: str = ""
    why: str = ""


def keep(connection: Connection, job_id: int, job: Job, now: str, label: str) -> None:
    """Keep which numbers a job has now, after the step of this name: new ones, those that went, and those that came back."""
    from sqlalchemy import insert, select, update

    from tundish.store.tables import numbers

    known = {
        (row.kind, row.number): row
        for row in connection.execute(select(numbers).where(numbers.c.job == job_id, numbers.c.kind.in_(IN_JOB)).order_by(numbers.c.id))
    }
    there = {(kind, number): what for kind, number, what in _numbered(job)}
    fresh = [
        {"number": number, "kind": kind, "job": job_id, "job_number": job.number, "what": what, "made": now, "gone": "", "why": ""}
        for (kind, number), what in there.items()
        if (kind, number) not in known
    ]
    if fresh:
        connection.execute(insert(numbers), fresh)
    for key, row in known.items():
        if bool(row.gone) == (key in there):
            state = {"gone": "", "why": ""} if key in there else {"gone": now, "why": label}
            connection.execute(update(numbers).where(numbers.c.id == row.id).values(**state))


def keep_quote(connection: Connection, job_id: int, number: str, now: str) -> None:
    """Keep the number that a quote goes out under; raises NumberTakenError where one of another job did."""
    from sqlalchemy import insert, select

    from tundish.store.tables import jobs, numbers

    of_job = connection.execute(select(jobs.c.number).where(jobs.c.id == job_id)).scalar()
    if not of_job:
        return
    whose = set(connection.execute(select(numbers.c.job).where(numbers.c.kind == QUOTE, numbers.c.number == number)).scalars())
    if whose - {job_id}:
        raise NumberTakenError(number)
    if not whose:
        row = {"number": number, "kind": QUOTE, "job": job_id, "job_number": of_job, "what": "Quote", "made": now, "gone": "", "why": ""}
        connection.execute(insert(numbers), [row])


def given(connection: Connection, kind: str = "") -> tuple[Given, ...]:
    """Every number that was given, in the order of giving; of one kind where it is said."""
    from sqlalchemy import select

    from tundish.store.tables import numbers

    wanted = select(numbers).order_by(numbers.c.id)
    rows = connection.execute(wanted.where(numbers.c.kind == kind) if kind else wanted)
    return tuple(Given(row.number, row.kind, row.job, row.job_number, row.what, row.made, row.gone, row.why) for row in rows)


def next_job(connection: Connection) -> str:
    """A job number above every one that a job, a paper, an order or stock was ever kept under."""
    from sqlalchemy import select

    from tundish.store.tables import jobs, movements, numbers, orders, rack

    columns = (jobs.c.number, numbers.c.job_number, orders.c.job, movements.c.job, rack.c.job)
    said = (number for column in columns for number in connection.execute(select(column).distinct()).scalars())
    highest = max((int(number) for number in said if number.isascii() and number.isdecimal() and len(number) <= _LONGEST), default=0)
    return f"{highest + 1:03d}"


_LONGEST: Final = 9


def _numbered(job: Job) -> Iterator[tuple[str, str, str]]:
    """Kind, number and words of what in the job has a number."""
    for bill in job.invoices:
        words = f"Credit note for {bill.credits}" if bill.credits else f"Invoice, {bill.what}"
        yield BILL, bill.number, f"{words}, {measure.show_money(bill_of(bill).due)}"
    for variation in job.variations:
        yield VARIATION, variation.number, "Variation"
