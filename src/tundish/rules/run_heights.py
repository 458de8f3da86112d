"""A supply along the wall at another height: what it would be then, and the choice that runs it there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.appliances.kind import LEVELS
from tundish.layout.room import PipeRun, Placed
from tundish.measure import show_length
from tundish.rules.rule import WayOut


def clear_height(run: PipeRun, one: Placed, book: Book, clear: Callable[[PipeRun], bool]) -> WayOut | None:
    """The lowest other height at which a supply of an appliance is clear, as a way out; None where none is, or it is under the floor."""
    if run.level is None or run.level.value < 0:
        return None
    to = next((to for to in _heights(run.level.value, book) if clear(_moved(run, run.level.value, to))), None)
    if to is None:
        return None
    words = f"Run {run.kind} to {one.name} along the wall at {show_length(to)} above the bare floor: its pieces and elbows change with it."
    return WayOut(words, f"{one.path}.{LEVELS[run.kind][0]}", to)


_MOST: Final = 5


def _heights(now: float, book: Book) -> Iterator[float]:
    usual, apart = book.figure("water.run_height").value, book.figure("water.runs_apart").value
    yield from (to for count in range(_MOST + 1) if abs((to := usual + count * apart) - now) >= 1)


def _moved(run: PipeRun, now: float, to: float) -> PipeRun:
    """All of it that lies at the height where it runs, and the tops of what comes up to that."""
    return replace(run, route=tuple((x, y, to if z == now else z) for x, y, z in run.route))
