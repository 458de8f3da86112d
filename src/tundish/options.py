"""An option: a named set of changes to a job, kept as what differs and laid over the job as it is when asked for."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from tundish import plain
from tundish.field import Field, NoSuchInputError, Problem, describe, fields_of, get, moved_up, put, records, text

R = TypeVar("R")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One input, or one list, as the option has it; `value` is it as plain data, written as JSON."""

    path: str = text("Input")
    value: str = text("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """What else the client may choose, priced beside the job as it stands."""

    name: str = text("Option", "As the client reads it: with a bidet, the plain basin…")
    note: str = text("What it means to the client")
    changes: tuple[Change, ...] = records("Changes", Change)


def without_room(options: Iterable[Option], gone: int) -> tuple[Option, ...]:
    """The options of a job that loses a room: what they changed of it is gone, later rooms move up; an option of nothing is left out."""
    made = (replace(each, changes=tuple(_moved_up(each.changes, gone))) for each in options)
    return tuple(each for each in made if each.changes)


def _moved_up(changes: Iterable[Change], gone: int) -> Iterator[Change]:
    for each in changes:
        path = moved_up(each.path, "rooms", gone)
        if path is not None and path != "rooms":  # the whole list, as the option had it, would bring the room back
            yield replace(each, path=path)


def differences(before: object, after: object) -> tuple[Change, ...]:
    """What turns one record into the other: single inputs, and whole lists where their lengths differ."""
    return tuple(Change(path=path, value=_written(value)) for path, value in _differing(before, after, ""))


def with_changes(root: R, changes: Iterable[Change]) -> tuple[R, tuple[Problem, ...]]:
    """The record with the changes laid over it, and those that no longer fit it, each with words to mend it."""
    problems: list[Problem] = []
    for change in changes:
        try:
            declared = describe(type(root), change.path)
            get(root, change.path)
            value, wrong = plain.check(declared, json.loads(change.value), change.path)
        except (NoSuchInputError, ValueError):
            problems.append(Problem(change.path, "this change of an option no longer fits the job: make the option anew"))
            continue
        if wrong:
            problems += wrong
        else:
            root = put(root, change.path, value)
    return root, tuple(problems)


def words(root: object, changes: Iterable[Change]) -> tuple[str, ...]:
    """The changes as a person reads them: the labels of what is changed."""
    return tuple(dict.fromkeys(_label(root, change.path) for change in changes))


def _label(root: object, path: str) -> str:
    try:
        return describe(type(root), path).label
    except NoSuchInputError:
        return path


def _differing(before: object, after: object, path: str) -> Iterator[tuple[str, object]]:
    for name, declared in fields_of(type(before)).items():
        one, other = getattr(before, name), getattr(after, name)
        here = f"{path}.{name}" if path else name
        if one == other:
            continue
        if declared.kind == "record":
            yield from _differing(one, other, here)
        elif declared.kind == "records" and len(one) == len(other):
            for place, rows in enumerate(zip(one, other, strict=True)):
                yield from _differing(*rows, f"{here}.{place}")
        else:
            yield here, _plain(declared, other)


def _plain(declared: Field, value: Any) -> object:
    if declared.kind == "records":
        return [plain.to_plain(row) for row in value]
    return plain.plain_value(value)


def _written(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True)
