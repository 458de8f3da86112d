"""The days of a job: which work on which day, and where something has to dry or cure before the work goes on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from tundish.catalogue.crew import WORKS
from tundish.pricing.price import Day, StagePrice
from tundish.pricing.waits import Wait

AGAIN: Final = "Set up again"
"""What the time to set up and clear up at a further visit is called among the work of a day."""
EVERY: Final[Mapping[str, float]] = dict.fromkeys(WORKS.values(), 0.0)
"""Every piece of work is the trader's, and takes no time to set up for again."""
_SATURDAY: Final = 5
_LEAST: Final = 0.01
_DAY_H: Final = 24.0


def programme(
    stages: Sequence[StagePrice], hours_a_day: float, start: str = "", waits: Sequence[Wait] = (), again: Mapping[str, float] = EVERY
) -> tuple[Day, ...]:
    """The days of the work in the order of its stages, weekends left out; bank holidays are for the trader to move.

    What dries does so overnight, and over a weekend where the days have dates; only what is not dry by the morning costs a day.
    `again`: the pieces of work that the trader comes for, and how many hours it lasts to set up for each after days without; work
    that is not among them is done by others who come by own means. Days on end that the trader comes, weekends apart, are a visit.
    """
    made = _Days(hours_a_day, start, waits, again)
    for stage in stages:
        for work, hours in stage.works or ((stage.stage, stage.lasts),):
            made.do(stage.name, work, hours)
    return tuple(made.days())


def reach(
    stages: Sequence[StagePrice], hours_a_day: float, start: str = "", waits: Sequence[Wait] = (), again: Mapping[str, float] = EVERY
) -> tuple[int, int]:
    """The fewest and the most days it may take, for all that is still to be confirmed."""
    ends = [[_at(each, each.hours.low) for each in stages], [_at(each, each.hours.high) for each in stages]]
    fewest, most = (len(programme(each, hours_a_day, start, waits, again)) for each in ends)
    return fewest, most


def _at(stage: StagePrice, hours: float) -> StagePrice:
    """A stage as it would last at other hours."""
    times = hours / stage.hours.value if stage.hours.value else 0.0
    return replace(stage, lasts=stage.lasts * times, works=tuple((work, part * times) for work, part in stage.works))


@dataclass(slots=True)
class _Slot:
    """A day being filled: its work, its date if there is one, what it waits for or ends with, and whose visit begins with what."""

    on: date | None
    work: list[tuple[str, float]]
    waits: str = ""
    then: str = ""
    visit: int = 0
    begins: str = ""

    def add(self, name: str, hours: float) -> None:
        """Work so many hours more on a stage."""
        before = self.work.pop()[1] if self.work and self.work[-1][0] == name else 0.0
        self.work.append((name, before + hours))


class _Days:
    """Days are filled one after the other; each piece of work begins when what it waits for is dry."""

    def __init__(self, hours_a_day: float, start: str, waits: Sequence[Wait], again: Mapping[str, float]) -> None:
        self._a_day = hours_a_day
        self._next = _working(date.fromisoformat(start)) if start else None
        self._waits, self._again = waits, again
        self._visits = 0
        self._slots: list[_Slot] = []
        self._room = 0.0
        self._ended: dict[str, int] = {}

    def do(self, name: str, work: str, hours: float) -> None:
        """Put a piece of work on the days that come."""
        if hours <= _LEAST:
            return
        self._wait_for(work)
        ours = work in self._again
        if ours:
            self._come(work)
        self._fill(name, hours, self._visits if ours else 0)
        self._ended[work] = len(self._slots) - 1

    def days(self) -> Iterator[Day]:
        """The days as they were filled."""
        for number, slot in enumerate(self._slots, 1):
            on = slot.on.isoformat() if slot.on else ""
            yield Day(number, on, tuple(slot.work), slot.waits, slot.then, slot.visit, slot.begins)

    def _come(self, work: str) -> None:
        """Begin a visit where the trader was there neither on the day that the work begins nor on the one before it."""
        if self._room < _LEAST:
            self._begin()
        if not any(slot.visit for slot in self._slots[-2:]):
            self._visits += 1
            self._slots[-1].visit, self._slots[-1].begins = self._visits, work
            if self._visits > 1:
                self._fill(AGAIN, self._again[work], self._visits)

    def _fill(self, name: str, hours: float, visit: int) -> None:
        """Put hours on the days that come, one day after the other; those of a visit are part of it."""
        while hours > _LEAST:
            if self._room < _LEAST:
                self._begin()
            done = min(hours, self._room)
            self._slots[-1].add(name, done)
            self._slots[-1].visit = visit or self._slots[-1].visit
            hours, self._room = hours - done, self._room - done

    def _begin(self) -> None:
        self._slots.append(_Slot(self._next, []))
        self._next = _working(self._next + timedelta(days=1)) if self._next else None
        self._room = self._a_day

    def _wait_for(self, work: str) -> None:
        """Let days go by until everything that the work waits for is dry; it begins in the morning then."""
        for wait in self._waits:
            ended = self._ended.get(wait.after)
            if work not in wait.before or ended is None:
                continue
            said = self._slots[ended].then
            if wait.what.lower() not in said.lower():
                self._slots[ended].then = f"{said} and {wait.what.lower()}" if said else wait.what
            if self._dry(wait, ended, len(self._slots) - 1):
                continue
            self._room = 0.0
            while not self._dry(wait, ended, len(self._slots)):
                self._begin()
                self._slots[-1].waits = wait.what
                self._room = 0.0

    def _dry(self, wait: Wait, ended: int, morning: int) -> bool:
        """Whether it is dry on the morning of a day, which may be the one that comes next."""
        was = self._slots[ended].on
        then = self._slots[morning].on if morning < len(self._slots) else self._next
        passed = (then - was).days if was and then else morning - ended
        return passed > 0 and passed * _DAY_H - self._a_day >= wait.hours.value - _LEAST


def _working(day: date) -> date:
    """The day, or the Monday after it where it is on a weekend."""
    while day.weekday() >= _SATURDAY:
        day += timedelta(days=1)
    return day
