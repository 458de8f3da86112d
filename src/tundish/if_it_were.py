"""If it were different: what one other value of one input would change in a room, worked out afresh and compared. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from tundish.catalogue.book import Book
from tundish.catalogue.own import with_own
from tundish.estimate import Job
from tundish.field import NoSuchInputError, Problem
from tundish.figure import Figure
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.layout.undecided import with_value
from tundish.rules.rule import Decision, Finding
from tundish.takeoff.alternatives import Wanted, always, taken_off


@dataclass(frozen=True, slots=True)
class FigureChange:
    """A figure that would be another: None where it would not be there, or was not. `room` is the pre-wall's name."""

    room: str
    name: str
    before: Figure | None
    after: Figure | None


@dataclass(frozen=True, slots=True)
class FindingChange:
    """A check that would come out otherwise: None where it would not be made, or was not."""

    before: Finding | None
    after: Finding | None

    @property
    def breaks(self) -> bool:
        """Whether it passes now and would not."""
        passed = self.before is None or self.before.state == "passes"
        return passed and self.after is not None and self.after.state in {"fails", "look"}

    @property
    def mends(self) -> bool:
        """Whether it does not pass now and would."""
        failed = self.before is not None and self.before.state in {"fails", "look"}
        return failed and (self.after is None or self.after.state == "passes")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one value would change; `problems` are those that it would bring, `decisions` those that would be for something else."""

    value: Any
    figures: tuple[FigureChange, ...]
    findings: tuple[FindingChange, ...]
    problems: tuple[Problem, ...]
    decisions: tuple[Decision, ...] = ()


def if_it_were(job: Job, book: Book, path: str, values: Iterable[Any], wanted: Wanted = always) -> tuple[Outcome, ...]:
    """For each value that the input at `path` of the job might have, what would change in its room.

    The path must lie in a room, such as "rooms.0.design.prewall.depth"; the values are as the job holds them. Other paths change no
    figure and no check, and raise NoSuchInputError. What is not `wanted` any more is left in the middle, with a NotWantedError.
    """
    words = path.split(".")
    if len(words) <= _INTO_ROOM or words[0] != "rooms" or not words[1].isdecimal() or int(words[1]) >= len(job.rooms):
        raise NoSuchInputError(path)
    plan, at, within = job.rooms[int(words[1])], ".".join(words[:_INTO_ROOM]), ".".join(words[_INTO_ROOM:])
    book = with_own(book, job.own_items)
    before = _worked(plan, book, at, wanted)
    return tuple(_outcome(value, before, _worked(with_value(plan, within, value), book, at, wanted)) for value in values)


_INTO_ROOM = 2


@dataclass(frozen=True, slots=True)
class _Worked:
    rooms: tuple[Room, ...]
    findings: dict[tuple[str, str, str], Finding]
    problems: tuple[Problem, ...]
    decisions: dict[str, Decision]


def _worked(plan: RoomPlan, book: Book, path: str, wanted: Wanted) -> _Worked:
    worked = taken_off(plan, book, path, wanted)
    rooms, takes = tuple(room for room, _ in worked), tuple(take for _, take in worked)
    findings = {(each.rule, each.title, each.place): each for take in takes for each in take.findings}
    told = (*(each for room in rooms for each in room.problems), *(each for take in takes for each in take.problems))
    decisions = {each.key: each for take in takes for each in take.decisions}
    return _Worked(rooms, findings, tuple(dict.fromkeys(told)), decisions)


def _outcome(value: Any, before: _Worked, after: _Worked) -> Outcome:
    keys = dict.fromkeys((*before.findings, *after.findings))
    pairs = ((before.findings.get(key), after.findings.get(key)) for key in keys)
    findings = tuple(FindingChange(one, other) for one, other in pairs if _said(one) != _said(other))
    new = tuple(each for each in after.problems if each not in before.problems)
    asked = (each for key, each in after.decisions.items() if key in before.decisions and each.rests_on != before.decisions[key].rests_on)
    return Outcome(value, tuple(_figures(before.rooms, after.rooms)), findings, new, tuple(asked))


def _figures(before: tuple[Room, ...], after: tuple[Room, ...]) -> Iterator[FigureChange]:
    was = {(room.name, name): figure for room in before for name, figure in room.figures.items()}
    now = {(room.name, name): figure for room in after for name, figure in room.figures.items()}
    for room, name in dict.fromkeys((*was, *now)):
        one, other = was.get((room, name)), now.get((room, name))
        if _span(one) != _span(other):
            yield FigureChange(room, name, one, other)


def _span(figure: Figure | None) -> tuple[float, float, float] | None:
    return None if figure is None else (figure.value, figure.low, figure.high)


def _said(finding: Finding | None) -> tuple[object, ...] | None:
    """What makes one outcome of a check another: its state, what there is and what is needed."""
    return None if finding is None else (finding.state, _span(finding.has), _span(finding.least), _span(finding.most))
