"""The three demonstration jobs worked out once, and a way to change one and work it out again."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.field import put
from tundish.layout.room import Room
from tundish.store.keep import demo_jobs


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


@pytest.fixture(params=["101", "102", "103"])
def one(request: pytest.FixtureRequest, worked: dict[str, Estimate]) -> Estimate:
    """Each demonstration job in turn."""
    return worked[request.param]


@pytest.fixture
def room(one: Estimate) -> Room:
    (room,) = one.rooms
    return room
