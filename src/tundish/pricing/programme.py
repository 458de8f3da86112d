"""The days of a job: which work on which day, and where something has to cure before the work goes on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from tundish.pricing.price import Day, StagePrice

CURING_DAYS: Final = 1
"""Adhesive and grout before anything hangs on the tiles: a day; makers' instructions come first (common practice)."""
_SATURDAY: Final = 5
_LEAST: Final = 0.01


def programme(stages: Sequence[StagePrice], hours_a_day: float, start: str = "") -> tuple[Day, ...]:
    """The days of the work in the order of its stages, weekends left out; bank holidays are for the trader to move."""
    days: list[Day] = []
    for place, stage in enumerate(stages):
        left = stage.hours.value
        while left > _LEAST:
            if not days or days[-1].waits or hours_a_day - days[-1].hours < _LEAST:
                days.append(Day(len(days) + 1))
            today = days[-1]
            done = min(left, hours_a_day - today.hours)
            days[-1] = replace(today, work=(*today.work, (stage.name, done)))
            left -= done
        if stage.stage == "boarding" and stage.hours.value > 0 and place < len(stages) - 1:
            days += [Day(len(days) + 1 + extra, waits="Adhesive and grout cure") for extra in range(CURING_DAYS)]
    dates = _working_days(start, len(days))
    return tuple(replace(day, date=on) for day, on in zip(days, dates, strict=True))


def _working_days(start: str, count: int) -> tuple[str, ...]:
    """So many days from a start, without Saturdays and Sundays; no dates where there is no start."""
    if not start:
        return ("",) * count
    day = date.fromisoformat(start)
    found: list[str] = []
    while len(found) < count:
        if day.weekday() < _SATURDAY:
            found.append(day.isoformat())
        day += timedelta(days=1)
    return tuple(found)
