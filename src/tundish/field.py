"""How an input is declared once: label, unit, limits, usual size, help; and how any input is found, checked and changed by path.

A record is a frozen dataclass whose attributes were made with the functions below. Forms, the job file, its schema, the command
line and undo all work from these declarations; a new input is one line where the fact belongs.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal, TypeVar, cast

from tundish.errors import TundishError
from tundish.figure import Figure, Known

Kind = Literal["number", "text", "choice", "item", "flag", "date", "money", "record", "records"]
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


def length(label: str, least: float = 0, most: float = 20_000, **more: Any) -> Any:  # noqa: ANN401 - a dataclass default
    """A length in millimetres: an Entry, or None while it is blank."""
    return _declared(Field("number", label, unit="mm", least=least, most=most, **more), None)


def amount(label: str, unit: str, least: float = 0, most: float = 1_000_000, **more: Any) -> Any:  # noqa: ANN401
    """A number in any other unit: an Entry, or None while it is blank."""
    return _declared(Field("number", label, unit=unit, least=least, most=most, **more), None)


def text(label: str, help: str = "", default: str = "") -> Any:  # noqa: A002, ANN401 - the declaration's own word
    """Words as typed."""
    return _declared(Field("text", label, help), default)


def choice(label: str, options: tuple[str, ...], help: str = "", default: str = "") -> Any:  # noqa: A002, ANN401
    """One of the options; the first unless `default` says otherwise."""
    return _declared(Field("choice", label, help, options=options), default or options[0])


def item(label: str, kinds: tuple[str, ...], help: str = "", default: str = "") -> Any:  # noqa: A002, ANN401
    """The code of a catalogue item of one of `kinds`; empty for none."""
    return _declared(Field("item", label, help, options=kinds), default)


def flag(label: str, help: str = "", *, default: bool = False) -> Any:  # noqa: A002, ANN401
    """Yes or no."""
    return _declared(Field("flag", label, help), default)


def date(label: str, help: str = "") -> Any:  # noqa: A002, ANN401
    """A day as ISO text, or empty."""
    return _declared(Field("date", label, help), "")


def money(label: str, help: str = "", most: float = 1_000_000) -> Any:  # noqa: A002, ANN401
    """Pounds as a Decimal, or None while it is blank."""
    return _declared(Field("money", label, help, unit="£", least=0, most=most), None)


def record(label: str, of: type[Any]) -> Any:  # noqa: ANN401
    """A record within the record."""
    return dataclasses.field(default_factory=of, metadata={"field": Field("record", label, of=of)})


def records(label: str, of: type[Any]) -> Any:  # noqa: ANN401
    """A list of records, in order."""
    return _declared(Field("records", label, of=of), ())


def fields_of(cls: type[Any]) -> Mapping[str, Field]:
    """The inputs that a record declares, by name, in the order of declaration."""
    known = _FIELDS.get(cls)
    if known is None:
        known = {each.name: each.metadata["field"] for each in dataclasses.fields(cls) if "field" in each.metadata}
        _FIELDS[cls] = known
    return known


def describe(cls: type[Any], path: str) -> Field:
    """The declaration behind a path such as "rooms.0.survey.stack.from_left"; list places are numbers."""
    found: Field | None = None
    here: type[Any] | None = cls
    for word in path.split("."):
        if found is not None and found.kind == "records" and word.isdecimal():
            found = Field("record", found.label, of=found.of)
            continue
        if here is None or word not in fields_of(here):
            raise NoSuchInputError(path)
        found = fields_of(here)[word]
        here = found.of
    if found is None:
        raise NoSuchInputError(path)
    return found


def get(root: object, path: str) -> Any:  # noqa: ANN401 - as many kinds as there are inputs
    """What stands at a path."""
    here: Any = root
    for word in path.split("."):
        if isinstance(here, tuple):
            if not word.isdecimal() or int(word) >= len(here):
                raise NoSuchInputError(path)
            here = here[int(word)]
        elif dataclasses.is_dataclass(here) and word in fields_of(type(here)):
            here = getattr(here, word)
        else:
            raise NoSuchInputError(path)
    return here


def put(root: R, path: str, value: object) -> R:
    """The same record with another value at a path; what stands beside it is the same object as before."""
    word, _, rest = path.partition(".")
    if isinstance(root, tuple):
        if not word.isdecimal() or int(word) >= len(root):
            raise NoSuchInputError(path)
        place = int(word)
        changed = put(root[place], rest, value) if rest else value
        return cast("R", (*root[:place], changed, *root[place + 1 :]))
    if not dataclasses.is_dataclass(root) or word not in fields_of(type(root)):
        raise NoSuchInputError(path)
    changed = put(getattr(root, word), rest, value) if rest else value
    return cast("R", dataclasses.replace(cast("Any", root), **{word: changed}))


def added(root: R, path: str, one: object) -> R:
    """The same record with one more at the end of the list at a path."""
    return put(root, path, (*get(root, path), one))


def removed(root: R, path: str, place: int) -> R:
    """The same record without the one at `place` of the list at a path."""
    rows = get(root, path)
    return put(root, path, (*rows[:place], *rows[place + 1 :]))


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
    """An input as a figure that remembers how it is known; a blank one is its usual size, assumed, or None without one."""
    declared = fields_of(type(record_))[name]
    entry: Entry | None = getattr(record_, name)
    where = f"{path}.{name}" if path else name
    if entry is None:
        if declared.usual is None:
            return None
        usual = float(declared.usual)
        return Figure(usual, usual, usual, declared.unit, declared.label, Known.ASSUMED, tbc=True, note="usual size", path=where)
    low = entry.value if entry.low is None else min(entry.low, entry.value)
    high = entry.value if entry.high is None else max(entry.high, entry.value)
    tbc = entry.tbc or low != high or entry.known is Known.ASSUMED
    values = (float(entry.value), float(low), float(high))
    return Figure(*values, declared.unit, declared.label, entry.known, tbc, (), entry.note, entry.when, where)


def must_read(record_: object, name: str, path: str = "") -> Figure:
    """As `read`, for an input that declares a usual size and so is never missing."""
    found = read(record_, name, path)
    if found is None:
        raise NoSuchInputError(f"{path}.{name}")
    return found


_FIELDS: Final[dict[type[Any], dict[str, Field]]] = {}


def _declared(declared: Field, default: object) -> Any:  # noqa: ANN401
    return dataclasses.field(default=default, metadata={"field": declared})
