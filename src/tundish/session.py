"""The open job and its history: edit, undo, redo, by name. No window, no disk.

Every step holds a whole frozen job; steps share what they did not change, so two hundred of them are small.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from tundish import plain
from tundish.estimate import MOST_STEPS, Job
from tundish.field import Field, NoSuchInputError, Problem, added, describe, get, put
from tundish.layout.design import RoomPlan
from tundish.layout.undecided import CHOICES, MOST_OTHERS, as_held, chosen, in_words, place_of
from tundish.options import differences, followed, taken_out, without_row
from tundish.survey.settled import wall_closed

LOCKED: Final = "The wall is closed: to change what is behind it, open it up again on Before closing."


@dataclass(frozen=True, slots=True)
class Step:
    """One named step: the job before and after it, and the input or place it acted on."""

    label: str
    before: Job
    after: Job
    path: str


@dataclass(slots=True)
class Session:
    """One open job. Listeners are told after each change with the step that was done, undone or redone."""

    job: Job
    done: list[Step] = field(default_factory=list)
    undone: list[Step] = field(default_factory=list)
    listeners: list[Callable[[Step], None]] = field(default_factory=list)

    def set(self, path: str, value: object, *, joined: bool = False) -> tuple[Problem, ...]:
        """Set one input from a plain or typed value; what cannot be taken comes back as problems and nothing changes.

        A choice in a room may be given as several values: it is then open between them, and one alone settles it.

        `joined`: the change belongs to the step before it when that was of the same input (typing on, one drag).
        """
        try:
            declared = describe(Job, path)
            before = get(self.job, path)
        except NoSuchInputError as missing:
            return (Problem(path, str(missing)),)
        if declared.kind in {"record", "records"}:
            return (Problem(path, f"{declared.label} is a group: set the inputs inside it"),)
        if declared.kind in CHOICES and place_of(path):
            return self._choose(path, declared, value if isinstance(value, tuple | list) else (value,), joined=joined)
        taken, problems = plain.check(declared, value, path)
        if problems:
            return problems
        if taken != before:
            return self.edit(f"{_verb(taken)} {declared.label}{_of(self.job, path)}", put(self.job, path, taken), path, joined=joined)
        return ()

    def add(self, path: str, one: object, label: str) -> tuple[Problem, ...]:
        """Add a record at the end of a list."""
        place = len(get(self.job, path))
        return self.edit(label, added(self.job, path, one), f"{path}.{place}")

    def remove(self, path: str, place: int, label: str) -> tuple[Problem, ...]:
        """Take one record out of a list; what was left open of it, or changed of it by an option, goes too."""
        row, after = get(self.job, f"{path}.{place}"), taken_out(self.job, path, place)
        if path != "options" and not self.job.begun.on:
            after = replace(after, options=without_row(after.options, path, place, row))
        return self.edit(label, after, path)

    def edit(self, label: str, after: Job, path: str = "", *, joined: bool = False) -> tuple[Problem, ...]:
        """Replace the job by another, as one named step; what is behind a closed wall stays, and a problem says so.

        Where rows went out of its lists, options speak of those that are left.
        """
        if after == self.job:
            return ()
        if locked(self.job, after):
            return (Problem(path, LOCKED),)
        after = _options_followed(self.job, after)
        step = Step(label, self.job, after, path)
        if joined and self.done and not self.undone and self.done[-1].path == path:
            step = Step(label, self.done.pop().before, after, path)
        self.done.append(step)
        del self.done[:-MOST_STEPS]
        self.undone.clear()
        self._become(after, step)
        return ()

    def undo(self) -> Step | None:
        """Take the last step back; None when there is none."""
        if not self.done:
            return None
        step = self.done.pop()
        self.undone.append(step)
        self._become(step.before, step)
        return step

    def redo(self) -> Step | None:
        """Do the step again that was taken back last; None when there is none."""
        if not self.undone:
            return None
        step = self.undone.pop()
        self.done.append(step)
        self._become(step.after, step)
        return step

    @property
    def undo_label(self) -> str:
        """What undo would take back, or nothing."""
        return self.done[-1].label if self.done else ""

    @property
    def redo_label(self) -> str:
        """What redo would do again, or nothing."""
        return self.undone[-1].label if self.undone else ""

    def _choose(self, path: str, declared: Field, values: Sequence[object], *, joined: bool) -> tuple[Problem, ...]:
        checked = [plain.check(declared, as_held(declared, value), path) for value in values]
        problems = tuple(dict.fromkeys(problem for _, wrong in checked for problem in wrong))
        if not problems and len(values) > MOST_OTHERS + 1:
            problems = (Problem(path, f"{declared.label}: at most {MOST_OTHERS + 1} can be left open"),)
        found = place_of(path)
        if found and not problems:
            (room, within), taken = found, tuple(in_words(value) for value, _ in checked)
            verb = _verb(taken[0]) if len(set(taken)) == 1 else "leave open"
            after = put(self.job, room, chosen(get(self.job, room), within, taken))
            return self.edit(f"{verb} {declared.label}{_of(self.job, path)}", after, path, joined=joined)
        return problems

    def _become(self, job: Job, step: Step) -> None:
        self.job = job
        for listener in tuple(self.listeners):
            listener(step)


def locked(before: Job, after: Job) -> bool:
    """Whether the wall is closed and a change would alter what is behind it.

    Photographs and the names of rooms may change; what is settled meanwhile confirms what it is settled for.
    """
    if wall_closed(before.settled) is None or before.settled != after.settled or before.rooms == after.rooms:
        return False
    return tuple(map(_behind, before.rooms)) != tuple(map(_behind, after.rooms))


def _of(job: Job, path: str) -> str:
    """Of which of several an input is, as the end of a step's name: ", Basin 1"."""
    parts = path.split(".")
    records = [(parts[end - 1], get(job, ".".join(parts[: end + 1]))) for end in range(1, len(parts)) if parts[end].isdecimal()]
    if len(job.rooms) == 1:
        records = [each for each in records if each[0] != "rooms"]
    names = (getattr(record, "name", "") for _, record in reversed(records))
    return "".join(f", {name}" for name in names if isinstance(name, str) and name)


def _behind(plan: RoomPlan) -> RoomPlan:
    return replace(plan, name="", survey=replace(plan.survey, photographs=()))


def _options_followed(before: Job, after: Job) -> Job:
    if not after.options or after.options != before.options or before.begun.on or after.begun.on:
        return after
    return replace(after, options=followed(after.options, differences(before, after)))


def _verb(value: object) -> str:
    return "clear" if value in (None, "") else "set"
