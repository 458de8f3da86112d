"""Inputs to and from plain data: what a job file holds, checked against the declarations, with every problem named.

Nothing is half read: a record comes back whole, or not at all with the reasons.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Any, Final, TypeVar, cast

from tundish.field import Entry, Field, Problem, fields_of
from tundish.figure import Known

Plain = None | bool | int | float | str | list["Plain"] | dict[str, "Plain"]
R = TypeVar("R")
Checked = tuple[object, tuple[Problem, ...]]
MOST_ROWS: Final = 2_000
MOST_WORDS: Final = 20_000


def check(declared: Field, value: object, path: str) -> tuple[object, tuple[Problem, ...]]:
    """A plain value as the typed value an input holds, with what is wrong with it; the value is None where it cannot be used."""
    return _CHECKS[declared.kind](declared, value, path)


def from_plain(cls: type[R], plain: object, path: str = "") -> tuple[R | None, tuple[Problem, ...], dict[str, object]]:
    """A record from plain data, all problems in it, and the keys that it does not know, by path.

    The record is None when any problem was found: a file is never half read.
    """
    if not isinstance(plain, dict):
        return None, (Problem(path, f"should be a group of named values, not {_said(plain)}"),), {}
    values: dict[str, object] = {}
    problems: list[Problem] = []
    unknown: dict[str, object] = {}
    declared = fields_of(cast("type[Any]", cls))
    for name, given in plain.items():
        here = f"{path}.{name}" if path else str(name)
        if name not in declared:
            unknown[here] = given
            continue
        each = declared[name]
        if each.kind == "record":
            value, found, more = from_plain(cast("type[Any]", each.of), given, here)
        elif each.kind == "records":
            value, found, more = _rows(each, given, here)
        else:
            (value, found), more = check(each, given, here), {}
        values[name] = value
        problems += found
        unknown |= more
    return (None if problems else cls(**values)), tuple(problems), unknown


def to_plain(root: object) -> dict[str, Plain]:
    """A record as plain data; what is blank or as declared is left out."""
    plain: dict[str, Plain] = {}
    for name, declared in fields_of(type(root)).items():
        value = getattr(root, name)
        if declared.kind == "record":
            inner = to_plain(value)
            if inner:
                plain[name] = inner
        elif declared.kind == "records":
            if value:
                plain[name] = [to_plain(row) for row in value]
        elif value != _default(type(root), name):
            plain[name] = _plain(value)
    return plain


def schema(cls: type[Any]) -> dict[str, object]:
    """The JSON Schema of a record, made from its declarations."""
    properties = {name: _schema_of(each) for name, each in fields_of(cls).items()}
    return {"type": "object", "properties": properties}


_ENTRY_FIELDS: Final = {each.name: each for each in dataclasses.fields(Entry)}


def _rows(declared: Field, given: object, path: str) -> tuple[tuple[object, ...], tuple[Problem, ...], dict[str, object]]:
    if not isinstance(given, list):
        return (), (Problem(path, f"should be a list, not {_said(given)}"),), {}
    if len(given) > MOST_ROWS:
        return (), (Problem(path, f"has {len(given):,} rows; at most {MOST_ROWS:,} can be read"),), {}
    rows: list[object] = []
    problems: list[Problem] = []
    unknown: dict[str, object] = {}
    for place, one in enumerate(given):
        row, found, more = from_plain(cast("type[Any]", declared.of), one, f"{path}.{place}")
        rows.append(row)
        problems += found
        unknown |= more
    return tuple(rows), tuple(problems), unknown


def _number(declared: Field, given: object, path: str) -> Checked:
    if given is None:
        return None, ()
    if isinstance(given, Entry):
        return _within(declared, given, path)
    if isinstance(given, Mapping):
        return _entry(declared, given, path)
    value, problem = _finite(given, path)
    if value is None:
        return None, problem
    return _within(declared, Entry(value, declared.known), path)


def _entry(declared: Field, given: Mapping[str, object], path: str) -> Checked:
    values: dict[str, object] = {"known": declared.known}
    problems: list[Problem] = [
        Problem(f"{path}.{name}", "is not known here; a number has value, known, low, high, tbc, note, when, typed, readings")
        for name in given
        if name not in _ENTRY_FIELDS
    ]
    for name in ("value", "low", "high"):
        if given.get(name) is not None:
            values[name], found = _finite(given[name], f"{path}.{name}")
            problems += found
    if "known" in given:
        values["known"], found = _known(given["known"], f"{path}.known")
        problems += found
    for name in ("note", "when", "typed"):
        if name in given:
            values[name], found = _words(Field("text", name), given[name], f"{path}.{name}")
            problems += found
    if "tbc" in given:
        values["tbc"], found = _flag(Field("flag", "tbc"), given["tbc"], f"{path}.tbc")
        problems += found
    if "readings" in given:
        values["readings"], found = _readings(given["readings"], f"{path}.readings")
        problems += found
    if "value" not in values:
        problems.append(Problem(f"{path}.value", "is missing: a number is needed here"))
    if problems:
        return None, tuple(problems)
    return _within(declared, Entry(**cast("Any", values)), path)


def _within(declared: Field, entry: Entry, path: str) -> Checked:
    problems = []
    for name, value in (("", entry.value), (".low", entry.low), (".high", entry.high)):
        if value is None:
            continue
        if declared.least is not None and value < declared.least:
            problems.append(Problem(path + name, f"{declared.label}: {value:g} is under the least, {declared.least:g} {declared.unit}".rstrip()))
        if declared.most is not None and value > declared.most:
            problems.append(Problem(path + name, f"{declared.label}: {value:g} is over the most, {declared.most:g} {declared.unit}".rstrip()))
        if declared.whole and value != int(value):
            problems.append(Problem(path + name, f"{declared.label}: {value:g} should be a whole number"))
    low = entry.value if entry.low is None else entry.low
    high = entry.value if entry.high is None else entry.high
    if not low <= entry.value <= high:
        problems.append(Problem(path, f"{declared.label}: {entry.value:g} is not between {low:g} and {high:g}"))
    return (None, tuple(problems)) if problems else (entry, ())


def _finite(given: object, path: str) -> tuple[float | None, tuple[Problem, ...]]:
    if isinstance(given, bool) or not isinstance(given, int | float):
        return None, (Problem(path, f"should be a number, not {_said(given)}"),)
    try:
        value = float(given)
    except OverflowError:
        return None, (Problem(path, "is far too large a number"),)
    if not math.isfinite(value):
        return None, (Problem(path, f"{value} is not a number that can be measured"),)
    return value, ()


def _known(given: object, path: str) -> Checked:
    try:
        return Known(cast("str", given)), ()
    except ValueError:
        return None, (Problem(path, f"{_said(given)} is not one of: {', '.join(Known)}"),)


def _readings(given: object, path: str) -> Checked:
    if not isinstance(given, list | tuple) or len(given) > MOST_ROWS:
        return None, (Problem(path, f"should be a short list of numbers, not {_said(given)}"),)
    values = [_finite(one, f"{path}.{place}") for place, one in enumerate(given)]
    return tuple(value for value, _ in values), tuple(problem for _, found in values for problem in found)


def _words(declared: Field, given: object, path: str) -> Checked:
    if not isinstance(given, str):
        return None, (Problem(path, f"{declared.label} should be words, not {_said(given)}"),)
    if len(given) > MOST_WORDS:
        return None, (Problem(path, f"{declared.label} is {len(given):,} characters long; at most {MOST_WORDS:,}"),)
    return given, ()


def _choice(declared: Field, given: object, path: str) -> Checked:
    if given in declared.options:
        return given, ()
    return None, (Problem(path, f"{declared.label}: {_said(given)} is not one of: {', '.join(declared.options)}"),)


def _flag(declared: Field, given: object, path: str) -> Checked:
    if isinstance(given, bool):
        return given, ()
    return None, (Problem(path, f"{declared.label} should be true or false, not {_said(given)}"),)


def _date(declared: Field, given: object, path: str) -> Checked:
    if given == "":
        return "", ()
    try:
        return date.fromisoformat(cast("str", given)).isoformat(), ()
    except (ValueError, TypeError):
        return None, (Problem(path, f"{declared.label}: {_said(given)} is not a day such as 2026-11-30"),)


def _money(declared: Field, given: object, path: str) -> Checked:
    if given is None:
        return None, ()
    try:
        value = Decimal(str(given))
    except InvalidOperation:
        return None, (Problem(path, f"{declared.label}: {_said(given)} is not an amount of money such as 38.50"),)
    if isinstance(given, bool) or not value.is_finite():
        return None, (Problem(path, f"{declared.label}: {_said(given)} is not an amount of money such as 38.50"),)
    if value < Decimal(str(declared.least or 0)) or value > Decimal(str(declared.most)):
        return None, (Problem(path, f"{declared.label}: £{value} is not between £{declared.least:g} and £{declared.most:g}"),)
    return value, ()


def _said(given: object) -> str:
    """A value as it may be quoted back, cut short."""
    if given is None:
        return "nothing"
    if isinstance(given, dict):
        return "a group"
    if isinstance(given, list | tuple):
        return "a list"
    words = str(given)
    return f"\"{words[:40]}…\"" if len(words) > 40 else f"\"{words}\""  # noqa: PLR2004


def _default(cls: type[Any], name: str) -> object:
    return next(each.default for each in dataclasses.fields(cls) if each.name == name)


def _plain(value: object) -> Plain:
    match value:
        case Entry():
            pairs = {name: _plain(getattr(value, name)) for name, each in _ENTRY_FIELDS.items()}
            bare = {name: _plain(each.default) for name, each in _ENTRY_FIELDS.items() if name not in {"value", "known"}}
            return {name: one for name, one in pairs.items() if name not in bare or one != bare[name]}
        case Decimal():
            return str(value)
        case tuple():
            return [_plain(one) for one in value]
        case float():
            return int(value) if value.is_integer() and abs(value) < 1e15 else value
        case _:
            return cast("Plain", value)


def _schema_of(declared: Field) -> dict[str, object]:
    made: dict[str, object] = {"title": declared.label}
    if declared.help:
        made["description"] = declared.help
    match declared.kind:
        case "record":
            return made | schema(cast("type[Any]", declared.of))
        case "records":
            return made | {"type": "array", "maxItems": MOST_ROWS, "items": schema(cast("type[Any]", declared.of))}
        case "number":
            return made | {"anyOf": [_number_schema(declared), _entry_schema(declared), {"type": "null"}]}
        case "choice":
            return made | {"enum": list(declared.options)}
        case "flag":
            return made | {"type": "boolean"}
        case "money":
            return made | {"type": ["string", "number", "null"]}
        case "date":
            return made | {"type": "string", "anyOf": [{"format": "date"}, {"const": ""}]}
        case _:
            return made | {"type": "string", "maxLength": MOST_WORDS}


def _number_schema(declared: Field) -> dict[str, object]:
    made: dict[str, object] = {"type": "integer" if declared.whole else "number"}
    if declared.unit:
        made["description"] = f"in {declared.unit}"
    if declared.least is not None:
        made["minimum"] = declared.least
    if declared.most is not None:
        made["maximum"] = declared.most
    return made


def _entry_schema(declared: Field) -> dict[str, object]:
    one = _number_schema(declared)
    words = {"type": "string", "maxLength": MOST_WORDS}
    properties = {
        "value": one,
        "low": one,
        "high": one,
        "known": {"enum": [str(each) for each in Known]},
        "tbc": {"type": "boolean"},
        "note": words,
        "when": words,
        "typed": words,
        "readings": {"type": "array", "items": {"type": "number"}, "maxItems": MOST_ROWS},
    }
    return {"type": "object", "required": ["value"], "additionalProperties": False, "properties": properties}


_CHECKS: Final[Mapping[str, Callable[[Field, object, str], Checked]]] = {
    "number": _number,
    "text": _words,
    "choice": _choice,
    "item": _words,
    "flag": _flag,
    "date": _date,
    "money": _money,
}
