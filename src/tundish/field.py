"""How an input is declared once: label, unit, limits, usual size, help; and how any input is found, checked and changed by path.

A record is a frozen dataclass whose attributes were made with the functions below. Forms, the job file, its schema, the command
line and undo all work from these declarations; a new input is one line where the fact belongs.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Final, Literal, TypeVar, cast

from tundish.errors import TundishError
from tundish.figure import Figure, Known

Kind = Literal["number", "text", "choice", "wall", "item", "flag", "date", "money", "record", "records"]
R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong with what was given: where it is, and words that say how to mend it."""

    path: str
    text: str


@dataclass(frozen=True, slots=True)
class Entry:
    """What somebody said a number is. `low` and `high` are given while it is still open; `typed` keeps the words typed."""

    value: float
    known: Known = Known.MEASURED
    low: float | None = None
    high: float | None = None
    tbc: bool = False
    note: str = ""
    when: str = ""
    typed: str = ""
    readings: tuple[float, ...] = ()

    @property
    def is_open(self) -> bool:
        """Whether it may still change: marked so, only assumed, or given as a range."""
        lower = self.low is not None and self.low < self.value
        higher = self.high is not None and self.high > self.value
        return self.tbc or self.known is Known.ASSUMED or lower or higher


@dataclass(frozen=True, slots=True)
class Field:
    """The declaration of one input. Numbers are in `unit`; outside `least` to `most` is refused, outside `likely` questioned."""

    kind: Kind
    label: str
    help: str = ""
    unit: str = ""
    least: float | None = None
    most: float | None = None
    likely: tuple[float, float] | None = None
    usual: float | None = None
    known: Known = Known.MEASURED
    options: tuple[str, ...] = ()
    of: type[Any] | None = None
    whole: bool = False


class NoSuchInputError(TundishError):
    """A path that names no input."""

    def __init__(self, path: str) -> None:
        super().__init__(f"there is no input called {path}")


def length(label: str, least: float = 0, most: float = 20_000, **more: Any) -> Any:
    """A length in millimetres: an Entry, or None while it is blank."""
    return _declared(Field("number", label, unit="mm", least=least, most=most, **more), None)


def amount(label: str, unit: str, least: float | None = 0, most: float | None = 1_000_000, **more: Any) -> Any:
    """A number in any other unit: an Entry, or None while it is blank."""
    return _declared(Field("number", label, unit=unit, least=least, most=most, **more), None)


def text(label: str, help: str = "", default: str = "") -> Any:  # noqa: A002 - the declaration's own word
    """Words as typed."""
    return _declared(Field("text", label, help), default)


def choice(label: str, options: tuple[str, ...], help: str = "", default: str = "") -> Any:  # noqa: A002
    """One of the options; the first unless `default` says otherwise."""
    return _declared(Field("choice", label, help, options=options), default or options[0])


def which_wall(label: str, help: str = "") -> Any:  # noqa: A002
    """The letter of one of the room's walls; A unless told."""
    return _declared(Field("wall", label, help), "A")


def item(label: str, kinds: tuple[str, ...], help: str = "", default: str = "") -> Any:  # noqa: A002
    """The code of a catalogue item of one of `kinds`; empty for none."""
    return _declared(Field("item", label, help, options=kinds), default)


def flag(label: str, help: str = "", *, default: bool = False) -> Any:  # noqa: A002
    """Yes or no."""
    return _declared(Field("flag", label, help), default)


def date(label: str, help: str = "") -> Any:  # noqa: A002
    """A day as ISO text, or empty."""
    return _declared(Field("date", label, help), "")


def money(label: str, help: str = "", least: float = 0, most: float = 1_000_000) -> Any:  # noqa: A002
    """Pounds as a Decimal, or None while it is blank."""
    return _declared(Field("money", label, help, unit="£", least=least, most=most), None)


def record(label: str, of: type[Any]) -> Any:
    """A record within the record."""
    return dataclasses.field(default_factory=of, metadata={"field": Field("record", label, of=of)})


def records(label: str, of: type[Any]) -> Any:
    """A list of records, in order."""
    return _declared(Field("records", label, of=of), ())


def fields_of(cls: type[Any]) -> Mapping[str, Field]:
    """The inputs that a record declares, by name, in the order of declaration."""
    return _fields_of(cast("Hashable", cls))


def describe(cls: type[Any], path: str) -> Field:
    """The declaration behind a path such as "rooms.0.survey.stack.from_left"; list places are numbers."""
    found = Field("record", "", of=cls)
    for word in path.split("."):
        if found.kind == "records" and _is_place(word):
            found = Field("record", found.label, of=found.of)
        elif found.kind == "record" and found.of is not None and word in fields_of(found.of):
            found = fields_of(found.of)[word]
        else:
            raise NoSuchInputError(path)
    return found


def get(root: object, path: str) -> Any:
    """What stands at a path."""
    here: Any = root
    for word in path.split("."):
        here = _below(here, word, path)
    return here


def put(root: R, path: str, value: object) -> R:
    """The same record with another value at a path; what stands beside it is the same object as before."""
    return cast("R", _put(root, path.split("."), value, path))


def added(root: R, path: str, one: object) -> R:
    """The same record with one more at the end of the list at a path."""
    return put(root, path, (*_list_at(root, path), one))


def removed(root: R, path: str, place: int) -> R:
    """The same record without the one at `place` of the list at a path."""
    rows = _list_at(root, path)
    if not 0 <= place < len(rows):
        raise NoSuchInputError(f"{path}.{place}")
    return put(root, path, (*rows[:place], *rows[place + 1 :]))


def moved_up(path: str, listed: str, gone: int) -> str | None:
    """What a path is called once the row `gone` of a list was taken out: those of later rows move up; None for what was of that row."""
    at, dot, rest = path.removeprefix(f"{listed}.").partition(".")
    if not path.startswith(f"{listed}.") or not at.isdecimal() or int(at) < gone:
        return path
    return None if int(at) == gone else f"{listed}.{int(at) - 1}{dot}{rest}"


def walk(root: object, path: str = "") -> Iterator[tuple[str, Field, Any]]:
    """Every input below a record: its path, its declaration and its value; records themselves are not named."""
    for name, each in fields_of(type(root)).items():
        here = f"{path}.{name}" if path else name
        value = getattr(root, name)
        if each.kind == "record":
            yield from walk(value, here)
        elif each.kind == "records":
            for place, row in enumerate(value):
                yield from walk(row, f"{here}.{place}")
        else:
            yield here, each, value


def read(record_: object, name: str, path: str = "") -> Figure | None:
    """An input as a figure that remembers how it is known; a blank one is its usual size, assumed, or None without one.

    A blank rate is no assumption to be confirmed: nothing is out there to be measured, the usual rate is what holds.
    """
    where = f"{path}.{name}" if path else name
    declared = fields_of(type(record_)).get(name)
    if declared is None or declared.kind != "number":
        raise NoSuchInputError(where)
    entry: Entry | None = getattr(record_, name)
    if entry is None:
        if declared.usual is None:
            return None
        usual = float(declared.usual)
        known, note = (Known.RATE, "usual") if declared.known is Known.RATE else (Known.ASSUMED, "usual size")
        return Figure(usual, usual, usual, declared.unit, declared.label, known, tbc=known is Known.ASSUMED, note=note, path=where)
    low = entry.value if entry.low is None else min(entry.low, entry.value)
    high = entry.value if entry.high is None else max(entry.high, entry.value)
    values = (float(entry.value), float(low), float(high))
    return Figure(*values, declared.unit, declared.label, entry.known, entry.is_open, (), entry.note, entry.when, where)


def must_read(record_: object, name: str, path: str = "") -> Figure:
    """As `read`, for an input that declares a usual size and so is never missing."""
    found = read(record_, name, path)
    if found is None:
        raise NoSuchInputError(f"{path}.{name}" if path else name)
    return found


@cache
def _fields_of(cls: Hashable) -> Mapping[str, Field]:
    declared = dataclasses.fields(cast("type[Any]", cls))
    return {each.name: each.metadata["field"] for each in declared if "field" in each.metadata}


def _below(here: object, word: str, path: str) -> object:
    """What a word of a path names inside a record or a list."""
    if isinstance(here, tuple) and _is_place(word) and int(word) < len(here):
        return here[int(word)]
    if dataclasses.is_dataclass(here) and word in fields_of(type(here)):
        return getattr(here, word)
    raise NoSuchInputError(path)


def _put(here: object, words: list[str], value: object, path: str) -> object:
    first, *rest = words
    old = _below(here, first, path)
    new = _put(old, rest, value, path) if rest else value
    if isinstance(here, tuple):
        return (*here[: int(first)], new, *here[int(first) + 1 :])
    return dataclasses.replace(cast("Any", here), **{first: new})


def _list_at(root: object, path: str) -> tuple[Any, ...]:
    rows = get(root, path)
    if not isinstance(rows, tuple):
        raise NoSuchInputError(path)
    return rows


def _is_place(word: str) -> bool:
    return len(word) <= _PLACE_DIGITS and word.isascii() and word.isdecimal()


_PLACE_DIGITS: Final = 9


def _declared(declared: Field, default: object) -> Any:
    return dataclasses.field(default=default, metadata={"field": declared})
