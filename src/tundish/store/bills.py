"""The bills of all jobs as they are kept, and the numbers that no job has now; the demonstration's are left out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tundish import measure
from tundish.documents.bill_list import Billed, Unused
from tundish.store.numbers import IN_JOB, Given

if TYPE_CHECKING:
    from tundish.store.keep import Store


def bills_of(store: Store) -> tuple[tuple[Billed, ...], tuple[Unused, ...]]:
    """Every bill and credit note of every job, put away or not, and every number that is in no job now, with the reason."""
    billed: list[Billed] = []
    here, demo = set(), set()
    for row in store.jobs():
        job = store.open(row.id)[0].job
        here.add(row.id)
        if job is None or job.demo:
            demo.add(row.id)
            continue
        billed += (Billed(job.client.name, each) for each in job.invoices)
    given = [each for each in store.numbers() if each.kind in IN_JOB and each.job not in demo]
    return tuple(billed), tuple(
        Unused(each.number, each.what, each.made, _why(each)) for each in given if each.gone or each.job not in here
    )


def gaps_of(store: Store, job_id: int) -> tuple[str, ...]:
    """The numbers that a job was given and has not now, each as a sentence."""
    return tuple(
        f"{each.number} is not given again. {each.what}, {measure.show_date(each.made[:10], with_year=False)}. {_why(each)}"
        for each in store.numbers()
        if each.job == job_id and each.gone
    )


def _why(given: Given) -> str:
    if not given.gone:
        return "Its job is no longer here"
    words = f"{given.why[:1].upper()}{given.why[1:]}"
    return f"{words}, {measure.show_date(given.gone[:10], with_year=False)} {given.gone[11:16]}"
