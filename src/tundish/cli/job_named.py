"""Finding the job that a command names: a job file, or the number of a job in the database."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from tundish.catalogue.book import Book
from tundish.errors import TundishError
from tundish.estimate import Job
from tundish.field import Problem
from tundish.store.codec import Opened, read_job
from tundish.store.keep import Store


class BadInputError(TundishError):
    """What was given cannot be used: every problem on a line of its own."""

    def __init__(self, what: str, problems: Iterable[Problem]) -> None:
        lines = [f"{what} {problem.path}: {problem.text}" if problem.path else f"{what} {problem.text}" for problem in problems]
        super().__init__("\n".join(lines))


def job_named(name: str) -> tuple[Job, Book]:
    """The job of a file or a number, with the book of the user's own database."""
    store = Store()
    try:
        opened = _opened(name, store)
        if opened.job is None:
            raise BadInputError(name, opened.problems)
        return opened.job, store.book()
    finally:
        store.close()


def _opened(name: str, store: Store) -> Opened:
    path = Path(name)
    if path.is_file():
        return read_job(path.read_bytes())
    job_id = store.find(name)
    if job_id is None:
        numbers = ", ".join(row.number for row in store.jobs() if row.number) or "none"
        return Opened(None, (Problem("", f"is neither a file nor the number of a job here (there are: {numbers})"),))
    return store.open(job_id)[0]
