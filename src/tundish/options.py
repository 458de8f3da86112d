"""An option: a named set of changes to a job, kept as what differs and laid over the job as it is when asked for.

Inputs are named by their place in the job. So a row that goes out of a list of the job takes its changes along, and those of later rows
move up: an option never speaks of a neighbour.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, Final, TypeVar, cast

from tundish import plain
from tundish.field import NoSuchInputError, Problem, added, describe, fields_of, get, moved_up, put, records, removed, text
from tundish.layout.design import RoomPlan
from tundish.layout.undecided import place_of
from tundish.layout.undecided import without_row as without_choices

R = TypeVar("R")
OUT: Final = ""
"""The value of a change that takes the row at its path out of its list."""
IN: Final = "+"
"""The last word of the path of a change that adds a row to a list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One input, one row or one list, as the option has it; `value` is it as plain data, written as JSON, or blank for a row left out."""

    path: str = text("Input")
    value: str = text("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """What else the client may choose, priced beside the job as it stands."""

    name: str = text("Option", "As the client reads it: with a bidet, the plain basin…")
    note: str = text("What it means to the client")
    changes: tuple[Change, ...] = records("Changes", Change)


def differences(before: object, after: object) -> tuple[Change, ...]:
    """What turns one record into the other: single inputs, rows left out and rows that come in, in the order they are to be made.

    A list in which rows that come in stand before others is told whole.
    """
    return tuple(_differing(before, after, ""))


def with_changes(root: R, changes: Iterable[Change]) -> tuple[R, tuple[Problem, ...]]:
    """The record with the changes laid over it, and those that no longer fit it, each with words to mend it."""
    problems: list[Problem] = []
    for change in changes:
        try:
            root, wrong = _with(root, change)
        except (NoSuchInputError, ValueError):
            wrong = (Problem(change.path, "this change of an option no longer fits the job: make the option anew"),)
        problems += wrong
    return root, tuple(problems)


def taken_out(root: R, listed: str, place: int) -> R:
    """The record without one row of a list; what was left open of it goes too."""
    after = removed(root, listed, place)
    if isinstance(after, RoomPlan):
        return cast("R", without_choices(after, listed, place))
    found = place_of(listed)
    return put(after, found[0], without_choices(get(after, found[0]), found[1], place)) if found else after


def without_row(options: Iterable[Option], listed: str, gone: int, row: object = None) -> tuple[Option, ...]:
    """The options of a job that loses a row of a list: what they changed of it is gone, later rows move up; one of nothing is left out.

    `row` is the one that goes, by which it is found in a list that an option has whole.
    """
    lost = plain.to_plain(row) if row is not None else None
    made = (replace(each, changes=tuple(_moved_up(each.changes, listed, gone, lost))) for each in options)
    return tuple(each for each in made if each.changes)


def followed(options: Iterable[Option], changes: Iterable[Change]) -> tuple[Option, ...]:
    """The options once these changes are made to the job itself."""
    for change in changes:
        listed, _, place = change.path.rpartition(".")
        if change.value == OUT:
            options = without_row(options, listed, int(place))
    return tuple(options)


def words(root: object, changes: Iterable[Change]) -> tuple[str, ...]:
    """The changes as a person reads them: the labels of what is changed, the names of what is left out or comes in."""
    return tuple(dict.fromkeys(_label(root, change) for change in changes))


_UNDECIDED: Final = "undecided"
_ALIKE: Final = 0.5
"""How much of two rows is to be the same for one to be the other changed."""
_SAME: Final = 2.0


def _with(root: R, change: Change) -> tuple[R, tuple[Problem, ...]]:
    listed, _, last = change.path.rpartition(".")
    if change.value == OUT:
        return taken_out(root, listed, _place(last, change.path)), ()
    given = json.loads(change.value)
    if last == IN:
        row, wrong, unknown = plain.from_plain(cast("type[Any]", describe(type(root), listed).of), given, listed)
        wrong = (*wrong, *(Problem(path, "is not known here") for path in unknown))
        return (root, wrong) if wrong else (added(root, listed, row), ())
    declared = describe(type(root), change.path)
    get(root, change.path)
    value, wrong = plain.check(declared, given, change.path)
    return (root, wrong) if wrong else (put(root, change.path, value), ())


def _place(word: str, path: str) -> int:
    if not word.isdecimal():
        raise NoSuchInputError(path)
    return int(word)


def _moved_up(changes: Iterable[Change], listed: str, gone: int, lost: object) -> Iterator[Change]:
    found = place_of(listed)
    for each in changes:
        if each.path == listed:  # the whole list, as the option had it, would bring the row back
            if lost is not None and listed != "rooms":
                yield replace(each, value=_without(each.value, lost))
            continue
        if found and each.path == f"{found[0]}.{_UNDECIDED}":  # its rows name places in the list as the option had it
            continue
        path = moved_up(each.path, listed, gone)
        if path is not None:
            yield replace(each, path=path)


def _without(written: str, lost: object) -> str:
    rows = json.loads(written)
    if lost in rows:
        rows.remove(lost)
    return _written(rows)


def _label(root: object, change: Change) -> str:
    listed, _, last = change.path.rpartition(".")
    try:
        if change.value == OUT:
            return f"without {_named(get(root, change.path), describe(type(root), listed).label)}"
        if last == IN:
            given = json.loads(change.value)
            return f"with {given.get('name') or describe(type(root), listed).label}"
        return describe(type(root), change.path).label
    except (NoSuchInputError, ValueError, AttributeError):
        return change.path


def _named(row: object, label: str) -> str:
    return str(getattr(row, "name", "") or getattr(row, "what", "") or label)


def _differing(before: object, after: object, path: str) -> Iterator[Change]:
    made: list[Change] = []
    for name, declared in fields_of(type(before)).items():
        one, other = getattr(before, name), getattr(after, name)
        here = f"{path}.{name}" if path else name
        if one == other or (isinstance(before, RoomPlan) and name == _UNDECIDED):
            continue
        if declared.kind == "record":
            made += _differing(one, other, here)
        elif declared.kind == "records":
            made += _rows(one, other, here)
        else:
            made.append(Change(path=here, value=_written(plain.plain_value(other))))
    yield from made
    if isinstance(before, RoomPlan) and isinstance(after, RoomPlan):
        within = (replace(each, path=each.path.removeprefix(f"{path}.")) for each in made)
        if with_changes(before, within)[0].undecided != after.undecided:
            yield _whole(after.undecided, f"{path}.{_UNDECIDED}" if path else _UNDECIDED)


def _rows(before: Sequence[object], after: Sequence[object], path: str) -> Iterator[Change]:
    """Rows that are another, then those left out from the last to the first, so that places stand, then those that come in."""
    pairs = _paired(before, after)
    kept, new = {one for one, _ in pairs}, [place for place in range(len(after)) if place not in {other for _, other in pairs}]
    if any(place < other for place in new for _, other in pairs):
        yield _whole(after, path)
        return
    for one, other in pairs:
        yield from _differing(before[one], after[other], f"{path}.{one}")
    yield from (Change(path=f"{path}.{place}", value=OUT) for place in reversed(range(len(before))) if place not in kept)
    yield from (Change(path=f"{path}.{IN}", value=_written(plain.to_plain(after[place]))) for place in new)


def _paired(before: Sequence[object], after: Sequence[object]) -> list[tuple[int, int]]:
    """Which rows of two lists are the same or one another changed, in order; such that they are as alike as can be."""
    shorter = min(len(before), len(after))
    first = next((place for place in range(shorter) if before[place] != after[place]), shorter)
    last = next((place for place in range(shorter - first) if before[-1 - place] != after[-1 - place]), shorter - first)
    middle = _most_alike(before[first : len(before) - last], after[first : len(after) - last])
    if len(before) == len(after) and all(one == other for one, other in middle):
        return [(place, place) for place in range(len(before))]
    ends = ((len(before) - place, len(after) - place) for place in range(last, 0, -1))
    return [*((place, place) for place in range(first)), *((one + first, other + first) for one, other in middle), *ends]


def _most_alike(before: Sequence[object], after: Sequence[object]) -> tuple[tuple[int, int], ...]:
    best: list[list[tuple[float, tuple[tuple[int, int], ...]]]] = [[(0.0, ())] * (len(after) + 1) for _ in range(len(before) + 1)]
    for one, row in enumerate(before):
        for other, beside in enumerate(after):
            alike = _alike(row, beside)
            likeness, pairs = best[one][other]
            both = [(likeness + alike, (*pairs, (one, other)))] if alike >= _ALIKE else []
            best[one + 1][other + 1] = max(*both, best[one][other + 1], best[one + 1][other], key=lambda each: each[0])
    return best[-1][-1][1]


def _alike(one: object, other: object) -> float:
    """How much of two rows is the same, from nothing to 1; what has the same name, or is the same altogether, goes before all else."""
    if one == other:
        return _SAME
    names = [each.name for each in fields(cast("Any", one))]
    alike = sum(bool(getattr(one, name) == getattr(other, name)) for name in names) / len(names)
    return alike + float(bool(_named(one, "")) and _named(one, "") == _named(other, ""))


def _whole(rows: Sequence[object], path: str) -> Change:
    return Change(path=path, value=_written([plain.to_plain(row) for row in rows]))


def _written(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True)
