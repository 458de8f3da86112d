"""Finding the job that a command names: a job file, or the number of a job in the database."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Final

from tundish.catalogue.book import Book
from tundish.errors import TundishError
from tundish.estimate import Job
from tundish.field import Problem
from tundish.store import logo
from tundish.store.codec import Opened, read_job_file
from tundish.store.keep import Store
from tundish.writers.pictures import LOGO

_LONGEST: Final = 200
"""Characters of a name that are said back."""


class BadInputError(TundishError):
    """What was given cannot be used: every problem on a line of its own."""

    def __init__(self, what: str, problems: Iterable[Problem]) -> None:
        super().__init__("\n".join(_said(what, problem) for problem in problems))


def job_named(name: str) -> tuple[Job, Book]:
    """The job of a file or a number, with the book of the user's own database; what is not known in a file is said."""
    opened, book = opened_named(name)
    return (opened.job or Job()), book


def open_store() -> Store:
    """The user's own database; what its catalogue gained by being opened is said."""
    store = Store()
    if store.news:
        print(store.news, file=sys.stderr)
    return store


def opened_named(name: str) -> tuple[Opened, Book]:
    """As `job_named`, with the pictures that its papers show: the photographs of the job, and the trader's logo."""
    store = open_store()
    try:
        opened = _opened(name, store)
        if opened.job is None:
            raise BadInputError(name, opened.problems)
        for note in opened.notes:
            print(_said(name, note), file=sys.stderr)
        own = logo.kept(store)
        return replace(opened, pictures={**opened.pictures, **({LOGO: own} if own else {})}), store.book(_key(name, opened.job, store))
    finally:
        store.close()


def _opened(name: str, store: Store) -> Opened:
    if is_file(name):
        return read_job_file(Path(name))
    job_id = store.find(name)
    if job_id is None:
        numbers = ", ".join(row.number for row in store.jobs() if row.number) or "none"
        return Opened(None, (Problem("", f"is neither a file nor the number of a job here (there are: {numbers})"),))
    return store.open(job_id)[0]


def _key(name: str, job: Job, store: Store) -> str:
    """What stock and orders know it by; the job of a file is taken for the one of its number."""
    job_id = store.find(job.number if is_file(name) else name)
    return store.key_of(job_id) if job_id else job.number


def is_file(name: str) -> bool:
    """Whether a job is named by its file."""
    try:
        return Path(name).is_file()
    except OSError:  # a name longer than the system takes
        return False


def _said(what: str, problem: Problem) -> str:
    what = what if len(what) <= _LONGEST else f"{what[:_LONGEST]}…"
    return f"{what} {problem.path}: {problem.text}" if problem.path else f"{what} {problem.text}"
