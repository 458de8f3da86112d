"""The days of a job."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.figure import between, number
from tundish.pricing.price import StagePrice
from tundish.pricing.programme import programme, reach
from tundish.pricing.waits import Wait
from tundish.rules.rule import STAGE_NAMES, STAGES, Stage

NOTHING = Decimal(0)


def stage(key: Stage, hours: float) -> StagePrice:
    return StagePrice(key, STAGE_NAMES[key], NOTHING, NOTHING, number(hours, "h"), NOTHING, NOTHING, NOTHING, lasts=hours)


def wait(hours: float, after: str, before: str, what: str = "It dries") -> Wait:
    return Wait(what, number(hours, "h"), after, (before,))


CURE = wait(24, "boarding", "second fix", "Adhesive and grout cure")


def test_work_goes_on_from_day_to_day_and_waits_for_the_tiles() -> None:
    """20 hours to the end of boarding are 2.67 days of 7.5, a day of curing, then the rest; 2026-12-01 is a Tuesday."""
    days = programme([stage("first fix", 9), stage("boarding", 11), stage("second fix", 5)], 7.5, "2026-12-01", (CURE,))
    assert [day.date for day in days] == ["2026-12-01", "2026-12-02", "2026-12-03", "2026-12-04", "2026-12-07"]
    assert [day.hours for day in days] == [7.5, 7.5, 5.0, 0, 5.0]
    assert days[1].work == (("First fix", 1.5), ("Boarding and tiling", 6.0))
    assert [day.waits for day in days] == ["", "", "", "Adhesive and grout cure", ""]
    assert [day.then for day in days] == ["", "", "Adhesive and grout cure", "", ""]


def test_it_dries_over_a_weekend_where_the_days_have_dates() -> None:
    """2026-12-03 is a Thursday: tiled on Friday, 24 hours are over by Monday; without dates nobody knows of a weekend."""
    work = [stage("boarding", 12), stage("second fix", 5)]
    assert [day.date for day in programme(work, 7.5, "2026-12-03", (CURE,))] == ["2026-12-03", "2026-12-04", "2026-12-07"]
    assert len(programme(work, 7.5, "", (CURE,))) == 4


@pytest.mark.parametrize(("hours", "lost"), [(3, 0), (12, 0), (16.5, 0), (17, 1), (24, 1), (40.5, 1), (41, 2), (72, 3)])
def test_what_is_dry_by_the_morning_costs_no_day(hours: float, lost: int) -> None:
    """From half past four to the next morning are 16.5 hours with days of 7.5."""
    days = programme([stage("frames", 2), stage("boarding", 2)], 7.5, "", (wait(hours, "frames", "boarding"),))
    assert len(days) == 2 + lost
    assert [bool(day.waits) for day in days] == [False, *[True] * lost, False]


def test_work_between_goes_on_while_it_dries() -> None:
    work = [stage("frames", 7.5), stage("boarding", 15), stage("second fix", 3)]
    days = programme(work, 7.5, "", (wait(24, "frames", "second fix"),))
    assert [day.waits for day in days] == [""] * 4


def test_a_piece_of_a_stage_waits_for_another() -> None:
    tiled = replace(stage("boarding", 6), works=(("boarding", 2.0), ("tiling", 4.0)))
    days = programme([tiled], 7.5, "", (wait(12, "boarding", "tiling", "Tanking dries"),))
    assert [day.work for day in days] == [(("Boarding and tiling", 2.0),), (("Boarding and tiling", 4.0),)]
    assert days[0].then == "Tanking dries"


def test_two_that_dry_at_once_cost_the_longer_of_them() -> None:
    work = [stage("frames", 2), stage("boarding", 2)]
    both = (wait(24, "frames", "boarding", "One"), wait(60, "frames", "boarding", "Other"))
    assert len(programme(work, 7.5, "", both)) == len(programme(work, 7.5, "", both[1:])) == 4
    assert programme(work, 7.5, "", both)[0].then == "One and other"


def test_what_is_still_open_gives_the_fewest_and_the_most_days() -> None:
    open_ = replace(stage("boarding", 7), hours=between(7, 5, 16, "h"), lasts=7.0)
    assert reach([stage("frames", 2), open_], 7.5) == (1, 3)
    assert reach([stage("frames", 2)], 7.5) == (1, 1)


def test_nothing_to_do_takes_no_day() -> None:
    assert programme([], 7.5, "2026-12-03") == ()


def test_boarding_last_waits_for_nobody() -> None:
    assert [day.waits for day in programme([stage("boarding", 5)], 7.5, "", (CURE,))] == [""]


@given(
    st.lists(st.tuples(st.sampled_from(STAGES), st.floats(0.5, 30)), min_size=1, max_size=6, unique_by=lambda each: each[0]),
    st.floats(0, 100),
    st.floats(0, 100),
    st.one_of(st.just(""), st.dates(date(2020, 1, 1), date(2030, 1, 1)).map(date.isoformat)),
)
def test_a_longer_wait_never_ends_earlier_and_none_is_cut_short(
    rows: list[tuple[Stage, float]], hours: float, more: float, start: str
) -> None:
    work = [stage(key, each) for key, each in sorted(rows, key=lambda row: STAGES.index(row[0]))]
    after, before = work[0].stage, work[-1].stage
    short, long = (programme(work, 8, start, (wait(each, after, before),)) for each in (hours, hours + more))
    assert len(short) <= len(long)
    if after != before:
        ended = max(place for place, day in enumerate(long) if any(name == work[0].name for name, _ in day.work))
        begun = min(place for place, day in enumerate(long) if any(name == work[-1].name for name, _ in day.work))
        passed = (date.fromisoformat(long[begun].date) - date.fromisoformat(long[ended].date)).days if start else begun - ended
        assert passed * 24 - 8 >= hours + more - 0.02 or hours + more <= 0.02


@given(
    st.lists(st.tuples(st.sampled_from(STAGES), st.floats(0, 60)), max_size=6),
    st.floats(4, 12),
    st.dates(date(2020, 1, 1), date(2030, 1, 1)),
)
def test_every_hour_is_worked_once_and_never_on_a_weekend(rows: list[tuple[Stage, float]], a_day: float, start: date) -> None:
    days = programme([stage(key, hours) for key, hours in rows], a_day, start.isoformat(), (CURE,))
    assert sum(day.hours for day in days) == pytest.approx(sum(hours for _, hours in rows), abs=0.1)
    assert all(day.hours <= a_day + 1e-6 for day in days)
    dates = [date.fromisoformat(day.date) for day in days]
    assert dates == sorted(set(dates))
    assert all(day.weekday() < 5 for day in dates)
    assert [day.number for day in days] == list(range(1, len(days) + 1))
