"""The days of a job: which work on which day, and where something has to cure before the work goes on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from tundish.pricing.price import Day, StagePrice

CURING_DAYS: Final = 1
"""Adhesive and grout before anything hangs on the tiles: a day; makers' instructions come first (common practice)."""
_SATURDAY: Final = 5
_LEAST: Final = 0.01


def programme(stages: Sequence[StagePrice], hours_a_day: float, start: str = "") -> tuple[Day, ...]:
    """The days of the work in the order of its stages, weekends left out; bank holidays are for the trader to move."""
    work: list[list[tuple[str, float]]] = []
    waits: dict[int, str] = {}
    room = 0.0
    for place, stage in enumerate(stages):
        left = stage.lasts
        while left > _LEAST:
            if room < _LEAST:
                work.append([])
                room = hours_a_day
            done = min(left, room)
            work[-1].append((stage.name, done))
            left, room = left - done, room - done
        if stage.stage == "boarding" and stage.lasts > 0 and place < len(stages) - 1:
            waits |= {len(work) + extra: "Adhesive and grout cure" for extra in range(CURING_DAYS)}
            work += [[] for _ in range(CURING_DAYS)]
            room = 0.0
    dates = _working_days(start, len(work))
    return tuple(Day(place + 1, dates[place], tuple(done), waits.get(place, "")) for place, done in enumerate(work))


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
