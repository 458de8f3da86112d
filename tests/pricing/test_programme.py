"""The days of a job."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.figure import number
from tundish.pricing.price import StagePrice
from tundish.pricing.programme import programme
from tundish.rules.rule import STAGE_NAMES, STAGES, Stage

NOTHING = Decimal(0)


def stage(key: Stage, hours: float) -> StagePrice:
    return StagePrice(key, STAGE_NAMES[key], NOTHING, NOTHING, number(hours, "h"), NOTHING, NOTHING, NOTHING, lasts=hours)


def test_work_goes_on_from_day_to_day_and_waits_for_the_tiles() -> None:
    """20 hours to the end of boarding are 2.67 days of 7.5, a day of curing, then the rest; 2026-12-03 is a Thursday."""
    days = programme([stage("first fix", 9), stage("boarding", 11), stage("second fix", 5)], 7.5, "2026-12-03")
    assert [day.date for day in days] == ["2026-12-03", "2026-12-04", "2026-12-07", "2026-12-08", "2026-12-09"]
    assert [day.hours for day in days] == [7.5, 7.5, 5.0, 0, 5.0]
    assert days[1].work == (("First fix", 1.5), ("Boarding and tiling", 6.0))
    assert days[3].waits


def test_nothing_to_do_takes_no_day() -> None:
    assert programme([], 7.5, "2026-12-03") == ()


def test_boarding_last_waits_for_nobody() -> None:
    assert [day.waits for day in programme([stage("boarding", 5)], 7.5)] == [""]


@given(
    st.lists(st.tuples(st.sampled_from(STAGES), st.floats(0, 60)), max_size=6),
    st.floats(4, 12),
    st.dates(date(2020, 1, 1), date(2030, 1, 1)),
)
def test_every_hour_is_worked_once_and_never_on_a_weekend(rows: list[tuple[Stage, float]], a_day: float, start: date) -> None:
    days = programme([stage(key, hours) for key, hours in rows], a_day, start.isoformat())
    assert sum(day.hours for day in days) == pytest.approx(sum(hours for _, hours in rows), abs=0.1)
    assert all(day.hours <= a_day + 1e-6 for day in days)
    dates = [date.fromisoformat(day.date) for day in days]
    assert dates == sorted(set(dates))
    assert all(day.weekday() < 5 for day in dates)
    assert [day.number for day in days] == list(range(1, len(days) + 1))
