"""The programme as a picture: a row for each stage, a column for each day on site, and bars where the work is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tundish import measure
from tundish.documents.drawing import Box, Drawing, Line, Mark, Words
from tundish.pricing.price import Day

BESIDE: Final = 54.0
"""What the names of the stages take, mm of paper."""
ACROSS: Final = 118.0
"""What all days take together."""
HIGH: Final = 7.0
BAR: Final = 4.4
NAMED: Final = 12.0
"""A day's name takes so much: where days are narrower, only some are named."""
SIZE: Final = 2.6


def drawn(days: Sequence[Day]) -> Drawing:
    """The days from the left, the stages from the top in the order of their work; a wait is dashed across its day."""
    rows = stages(days)
    wide, low = ACROSS / len(days), -HIGH * len(rows)
    marks: list[Mark] = [
        *_days(days, wide, low),
        *(Words(BESIDE - 2, _middle(row), name, SIZE, anchor="end") for row, name in enumerate(rows)),
    ]
    for place, day in enumerate(days):
        left = BESIDE + place * wide
        if day.waits:
            marks.append(Box(left, low, wide, -low, "hidden", filled=False))
        marks += _bars(day, rows, left, wide)
    return Drawing("Programme", tuple(marks), (0.0, low - 1, BESIDE + ACROSS + 1, HIGH - low + 2))


def told(days: Sequence[Day]) -> str:
    """What the picture shows, in words: each stage with its first and its last day, and the waits."""
    said = []
    for name in stages(days):
        on = [day for day in days if any(stage == name for stage, _ in day.work)]
        said.append(f"{name}: {_name(on[0])}" + (f" to {_name(on[-1])}" if len(on) > 1 else ""))
    return "; ".join([*said, *(f"{day.waits}: {_name(day)}" for day in days if day.waits)])


def stages(days: Sequence[Day]) -> tuple[str, ...]:
    """The stages that there is work of, in the order in which it begins."""
    return tuple(dict.fromkeys(name for day in days for name, _ in day.work))


def _days(days: Sequence[Day], wide: float, low: float) -> Iterator[Mark]:
    every = max(1, round(NAMED / wide + 0.5))
    for place, day in enumerate(days):
        left = BESIDE + place * wide
        yield Line(left, low, left, HIGH, "tile")
        if place % every == 0:
            yield Words(left + 1, HIGH / 2, _name(day), SIZE, anchor="start")
    yield Line(BESIDE + ACROSS, low, BESIDE + ACROSS, HIGH, "tile")
    yield Line(0, 0, BESIDE + ACROSS, 0, "ink")


def _bars(day: Day, rows: Sequence[str], left: float, wide: float) -> Iterator[Mark]:
    """The work of a day side by side, each as wide as its part of the hours."""
    x = left
    for name, hours in day.work:
        part = wide * hours / day.hours
        yield Box(x, _middle(rows.index(name)) - BAR / 2, part, BAR, "steel")
        x += part


def _middle(row: int) -> float:
    return -HIGH * (row + 0.5)


def _name(day: Day) -> str:
    return measure.show_date(day.date, with_year=False).partition(" ")[2] if day.date else f"Day {day.number}"
