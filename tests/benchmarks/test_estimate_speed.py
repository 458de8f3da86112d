"""How long an edit takes: the family bathroom, and one room of a hundred."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import count

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, put
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.store.keep import demo_jobs
from tundish.takeoff.run import run_room

ROUNDS = 60
TOP = "rooms.0.design.appliances.0.top"


@pytest.fixture(scope="module")
def book() -> Book:
    return supplied_book()


@pytest.fixture(scope="module")
def family() -> Job:
    return next(job for job in demo_jobs() if job.number == "102")


def editing(job: Job, book: Book) -> Callable[[], Estimate]:
    """An edit of the first room's pan height, a new one each time, and the estimate after it."""
    heights = count()

    def edit() -> Estimate:
        return estimate(put(job, TOP, Entry(400.0 + next(heights) % 60 + next(heights) / 1000)), book)

    edit()
    return edit


def test_an_edit_in_the_family_bathroom_takes_less_than_a_frame(benchmark: BenchmarkFixture, family: Job, book: Book) -> None:
    """Target: under 16 ms, with cut plans at their quickest."""
    worked = benchmark.pedantic(editing(family, book), rounds=ROUNDS, warmup_rounds=3)  # type: ignore[no-untyped-call]  # the plug-in has no types
    assert worked.lines


def test_an_edit_in_one_room_of_a_hundred(benchmark: BenchmarkFixture, family: Job, book: Book) -> None:
    """Target: at most twice the edit in a job of one room."""
    rooms = tuple(replace(family.rooms[0], name=f"Bathroom {place}") for place in range(100))
    worked = benchmark.pedantic(editing(replace(family, rooms=rooms), book), rounds=ROUNDS, warmup_rounds=3)  # type: ignore[no-untyped-call]  # the plug-in has no types
    assert len(worked.rooms) == 100


def test_all_rules_for_the_family_bathroom(benchmark: BenchmarkFixture, family: Job, book: Book) -> None:
    """Target: under 10 ms, for a room that no rule has read before, so that nothing is remembered of it."""

    def new_room() -> tuple[tuple[Room, Book], dict[str, object]]:
        return (work_out(family.rooms[0], book), book), {}

    take = benchmark.pedantic(run_room, setup=new_room, rounds=ROUNDS, warmup_rounds=3)  # type: ignore[no-untyped-call]  # the plug-in has no types
    assert take.findings


@pytest.mark.parametrize("many", [1, 10, 100])
def test_all_rules_for_so_many_rooms(benchmark: BenchmarkFixture, family: Job, book: Book, many: int) -> None:
    """Target: ten times the rooms take ten times as long, within a fifth. Each room is new, so that nothing is remembered of it."""

    def new_rooms() -> tuple[tuple[tuple[Room, ...]], dict[str, object]]:
        return (tuple(work_out(family.rooms[0], book, f"rooms.{place}") for place in range(many)),), {}

    def every_rule(rooms: tuple[Room, ...]) -> int:
        return sum(len(run_room(room, book).findings) for room in rooms)

    rounds = max(3, ROUNDS // many)
    found = benchmark.pedantic(every_rule, setup=new_rooms, rounds=rounds, warmup_rounds=1)  # type: ignore[no-untyped-call]  # the plug-in has no types
    assert found % many == 0
