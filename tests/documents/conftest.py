"""The demonstration jobs worked out once, and a way to change one and work it out again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.field import put
from tundish.layout.room import Room
from tundish.store.keep import demo_jobs

DEMOS: Final = (("101", 0), ("102", 0), ("103", 0), ("104", 0), ("104", 1), ("104", 2))
"""Every pre-wall of every demonstration job: 104 turns a corner and has a boxing."""


@pytest.fixture(scope="session")
def book() -> Book:
    return supplied_book()


@pytest.fixture(scope="session")
def jobs() -> dict[str, Job]:
    return {job.number: job for job in demo_jobs()}


@pytest.fixture(scope="session")
def worked(jobs: dict[str, Job], book: Book) -> dict[str, Estimate]:
    return {number: estimate(job, book) for number, job in jobs.items()}


@pytest.fixture(scope="session")
def changed(jobs: dict[str, Job], book: Book) -> Callable[..., Estimate]:
    """A demonstration job with inputs changed by path, points written as two underscores."""

    def made(number: str, /, **changes: object) -> Estimate:
        job = jobs[number]
        for path, value in changes.items():
            job = put(job, path.replace("__", "."), value)
        return estimate(job, book)

    return made


@pytest.fixture(params=DEMOS, ids=lambda demo: "-".join(map(str, demo)))
def demo(request: pytest.FixtureRequest) -> tuple[str, int]:
    """Each pre-wall in turn: the number of its job, and its place there."""
    number, place = request.param
    return number, place


@pytest.fixture
def one(demo: tuple[str, int], worked: dict[str, Estimate]) -> Estimate:
    """The job of the pre-wall whose turn it is."""
    return worked[demo[0]]


@pytest.fixture
def room(demo: tuple[str, int], one: Estimate) -> Room:
    """The pre-wall whose turn it is."""
    return one.rooms[demo[1]]
