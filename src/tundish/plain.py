"""Inputs to and from plain data: what a job file holds, checked against the declarations, with every problem named.

Nothing is half read: a record comes back whole, or not at all with the reasons.
"""

from __future__ import annotations

import dataclasses
import math
import re
from collections.abc import Callable, Hashable, Iterator, Mapping
from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any, Final, TypeAlias, TypeVar, cast

from tundish.field import Entry, Field, Problem, fields_of
from tundish.figure import Known
from tundish.measure import show_money, show_number

Plain: TypeAlias = "bool | int | float | str | list[Plain] | dict[str, Plain] | None"
Checked: TypeAlias = tuple[object, tuple[Problem, ...]]
R = TypeVar("R")
MOST_ROWS: Final = 2_000
MOST_WORDS: Final = 20_000


def check(declared: Field, value: object, path: str) -> Checked:
    """A plain value as the typed value an input holds, with what is wrong with it; the value is None where it cannot be used."""
    if declared.kind not in {"record", "records"}:
        return _CHECKS[declared.kind](declared, value, path)
    made, problems, unknown = _read(declared, value, path)
    problems = (*problems, *(Problem(_cut(where), "is not known here") for where in unknown))
    return (None if problems else made), problems


def from_plain(cls: type[R], plain: object, path: str = "") -> tuple[R | None, tuple[Problem, ...], dict[str, object]]:
    """A record from plain data, all problems in it, and the keys that it does not know, by path.

    The record is None when any problem was found: a file is never half read.
    """
    if not isinstance(plain, dict):
        return None, (Problem(path, f"should be a group of named values, not {_said(plain)}"),), {}
    values: dict[str, object] = {}
    problems: list[Problem] = []
    unknown: dict[str, object] = {}
    declared = fields_of(cls)
    for name, given in plain.items():
        here = f"{path}.{_word(name)}" if path else _word(name)
        if name not in declared:
            unknown[here] = given
            continue
        values[name], found, more = _read(declared[name], given, here)
        problems += found
        unknown |= more
    return (None if problems else cls(**values)), tuple(problems), unknown


def to_plain(root: object) -> dict[str, Plain]:
    """A record as plain data; what is blank or as declared is left out."""
    plain: dict[str, Plain] = {}
    usual = _defaults(cast("Hashable", type(root)))
    for name, declared in fields_of(type(root)).items():
        value = getattr(root, name)
        if declared.kind == "record":
            inner = to_plain(value)
            if inner:
                plain[name] = inner
        elif declared.kind == "records":
            if value:
                plain[name] = [to_plain(row) for row in value]
        elif value != usual[name]:
            plain[name] = plain_value(value)
    return plain


def schema(cls: type[Any]) -> dict[str, object]:
    """The JSON Schema of a record, made from its declarations."""
    properties = {name: _schema_of(each) for name, each in fields_of(cls).items()}
    return {"type": "object", "properties": properties}


_ENTRY_FIELDS: Final = {each.name: each for each in dataclasses.fields(Entry)}
_ENTRY_WORDS: Final = (Field("text", "note"), Field("date", "when"), Field("text", "typed"), Field("flag", "tbc"))
_SHORT: Final = 40
_WHOLE: Final = 1e15  # beyond this a float no longer holds every whole number
_UNWRITABLE: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")  # no file format takes these
_WALL: Final = "[A-Z]{1,3}"
_POUNDS: Final = "-?[0-9]{1,20}([.][0-9]{1,40})?"


def _read(declared: Field, given: object, path: str) -> tuple[object, tuple[Problem, ...], dict[str, object]]:
    if declared.kind == "record":
        return from_plain(cast("type[object]", declared.of), given, path)
    if declared.kind == "records":
        return _rows(declared, given, path)
    return *check(declared, given, path), {}


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
        Problem(f"{path}.{_cut(str(name))}", "is not known here; a number has value, known, low, high, tbc, note, when, typed, readings")
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
    for each in _ENTRY_WORDS:
        if each.label in given:
            values[each.label], found = check(each, given[each.label], f"{path}.{each.label}")
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
    problems: list[Problem] = []
    for name, value in (("", entry.value), (".low", entry.low), (".high", entry.high)):
        if value is not None:
            problems += (Problem(path + name, f"{declared.label}: {fault}") for fault in _faults(declared, value))
    low = entry.value if entry.low is None else entry.low
    high = entry.value if entry.high is None else entry.high
    if not problems and not low <= entry.value <= high:
        problems.append(Problem(path, f"{declared.label}: {_shown(entry.value)} is not between {_shown(low)} and {_shown(high)}"))
    return (None, tuple(problems)) if problems else (entry, ())


def _faults(declared: Field, value: float) -> Iterator[str]:
    if not math.isfinite(value):
        yield f"{value} is not a number that can be measured"
        return
    shown = f"{_shown(value)} {declared.unit}".rstrip()
    if declared.least is not None and value < declared.least:
        yield f"{shown} is under the least, {_shown(declared.least)} {declared.unit}".rstrip()
    if declared.most is not None and value > declared.most:
        yield f"{shown} is over the most, {_shown(declared.most)} {declared.unit}".rstrip()
    if declared.whole and not float(value).is_integer():
        yield f"{shown} should be a whole number"


def _finite(given: object, path: str) -> tuple[float | None, tuple[Problem, ...]]:
    if isinstance(given, bool) or not isinstance(given, int | float):
        return None, (Problem(path, f"should be a number, not {_said(given)}"),)
    try:
        value = float(given)
    except OverflowError:
        value = math.inf
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
    odd = _UNWRITABLE.search(given)
    if odd:
        return None, (Problem(path, f"{declared.label} holds a character that cannot be written, at place {odd.start() + 1:,}"),)
    return given, ()


def _choice(declared: Field, given: object, path: str) -> Checked:
    if given in declared.options:
        return given, ()
    return None, (Problem(path, f"{declared.label}: {_said(given)} is not one of: {', '.join(declared.options)}"),)


def _wall(declared: Field, given: object, path: str) -> Checked:
    if isinstance(given, str) and re.fullmatch(_WALL, given):
        return given, ()
    return None, (Problem(path, f"{declared.label}: {_said(given)} is no wall: A, B, C… past Z with AA, AB…"),)


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
    value = _pounds(given)
    if value is None:
        return None, (Problem(path, f"{declared.label}: {_said(given)} is not an amount of money such as 38.50"),)
    least, most = (Decimal(str(limit or 0)) for limit in (declared.least, declared.most))
    if not least <= value <= most:
        return None, (Problem(path, f"{declared.label}: {_said(given)} is not between {show_money(least)} and {show_money(most)}"),)
    return value, ()


def _pounds(given: object) -> Decimal | None:
    if isinstance(given, bool) or not isinstance(given, int | float | str | Decimal):
        return None
    if isinstance(given, str) and not re.fullmatch(_POUNDS, given):
        return None
    value = Decimal(repr(given)) if isinstance(given, float) else Decimal(given)
    return value if value.is_finite() else None


def _word(name: object) -> str:
    """A key as one word of a path: its dots are written as in a JSON Pointer (RFC 6901), for paths are parted by them."""
    return str(name).replace("~", "~0").replace(".", "~1")


def _said(given: object) -> str:
    """A value as it may be quoted back, cut short."""
    if given is None:
        return "nothing"
    if isinstance(given, dict):
        return "a group"
    if isinstance(given, list | tuple):
        return "a list"
    if isinstance(given, int) and abs(given) >= 10**_SHORT:
        return "a number that long"
    return f'"{_cut(str(given))}"'


def _shown(value: float) -> str:
    return _cut(show_number(value, None))


def _cut(words: str) -> str:
    """Words that can be written anywhere, cut short."""
    return _UNWRITABLE.sub("�", words[:_SHORT]) + ("…" if len(words) > _SHORT else "")


@cache
def _defaults(cls: Hashable) -> Mapping[str, object]:
    return {each.name: each.default for each in dataclasses.fields(cast("type[Any]", cls))}


def plain_value(value: object) -> Plain:
    """The value of one input as plain data."""
    match value:
        case Entry():
            named = {name: getattr(value, name) for name in _ENTRY_FIELDS}
            always = {"value", "known"}
            return {name: plain_value(one) for name, one in named.items() if name in always or one != _ENTRY_FIELDS[name].default}
        case Decimal():
            return f"{value:f}"
        case Known():
            return str(value)
        case tuple():
            return [plain_value(one) for one in value]
        case float():
            return int(value) if value.is_integer() and abs(value) < _WHOLE else value
        case _:
            return cast("Plain", value)


def _schema_of(declared: Field) -> dict[str, object]:
    made: dict[str, object] = {"title": declared.label}
    if declared.help:
        made["description"] = declared.help
    return made | _SCHEMAS[declared.kind](declared)


def _number_schema(declared: Field) -> dict[str, object]:
    return {"anyOf": [_bare_schema(declared), _entry_schema(declared), {"type": "null"}]}


def _bare_schema(declared: Field) -> dict[str, object]:
    made: dict[str, object] = {"type": "integer" if declared.whole else "number"}
    if declared.unit:
        made["description"] = f"in {declared.unit}"
    if declared.least is not None:
        made["minimum"] = declared.least
    if declared.most is not None:
        made["maximum"] = declared.most
    return made


def _entry_schema(declared: Field) -> dict[str, object]:
    one = _bare_schema(declared)
    properties = {
        "value": one,
        "low": {"anyOf": [one, {"type": "null"}]},
        "high": {"anyOf": [one, {"type": "null"}]},
        "known": {"enum": [str(each) for each in Known]},
        "tbc": {"type": "boolean"},
        "note": _WORDS_SCHEMA,
        "when": _DATE_SCHEMA,
        "typed": _WORDS_SCHEMA,
        "readings": {"type": "array", "items": {"type": "number"}, "maxItems": MOST_ROWS},
    }
    return {"type": "object", "required": ["value"], "additionalProperties": False, "properties": properties}


def _money_schema(declared: Field) -> dict[str, object]:
    limits = {"minimum": declared.least or 0, "maximum": declared.most or 0}
    return {"type": ["string", "number", "null"], "pattern": f"^{_POUNDS}$", **limits}


_WORDS_SCHEMA: Final[Mapping[str, object]] = {"type": "string", "maxLength": MOST_WORDS}
_DATE_SCHEMA: Final[Mapping[str, object]] = {"type": "string", "anyOf": [{"format": "date"}, {"const": ""}]}
_SCHEMAS: Final[Mapping[str, Callable[[Field], dict[str, object]]]] = {
    "record": lambda declared: schema(cast("type[Any]", declared.of)),
    "records": lambda declared: {"type": "array", "maxItems": MOST_ROWS, "items": schema(cast("type[Any]", declared.of))},
    "number": _number_schema,
    "choice": lambda declared: {"enum": list(declared.options)},
    "wall": lambda _: {"type": "string", "pattern": f"^{_WALL}$"},
    "flag": lambda _: {"type": "boolean"},
    "money": _money_schema,
    "date": lambda _: dict(_DATE_SCHEMA),
    "text": lambda _: dict(_WORDS_SCHEMA),
    "item": lambda _: dict(_WORDS_SCHEMA),
}
_CHECKS: Final[Mapping[str, Callable[[Field, object, str], Checked]]] = {
    "number": _number,
    "text": _words,
    "choice": _choice,
    "wall": _wall,
    "item": _words,
    "flag": _flag,
    "date": _date,
    "money": _money,
}
