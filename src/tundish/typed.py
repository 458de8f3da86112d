"""What was typed into a box, as the value of an input; and the value of an input, as a box shows it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import Final

from tundish import measure
from tundish.field import Entry, Field
from tundish.figure import Known

YES = "yes"
OR: Final = " or "
"""Between the alternatives of a choice that is left open."""


def taken(declared: Field, words: str, before: object) -> tuple[object, str]:
    """The value that words stand for, and what is wrong with them; a blank box clears the input.

    A number typed over keeps how the input is usually known; a range such as "8 to 12" makes it to be confirmed; of several
    readings such as "2380 2376 2383" the least is used and all are kept. A choice typed as "this or that" is left open between them.
    """
    if declared.kind == "flag":
        known = {YES: True, "true": True, "no": False, "false": False}
        several = tuple(known.get(each.strip(), each.strip()) for each in words.lower().split(OR))
        return (several if len(several) > 1 else known.get(words.lower(), words)), ""
    if declared.kind == "money":
        money = measure.read_money(words)
        return money.value, money.problem
    if declared.kind == "date":
        day = measure.read_date(words)
        return day.value or "", day.problem
    if declared.kind in {"choice", "wall", "item"}:
        options = tuple(_alternatives(words.split(OR), declared.options))
        return (options if len(options) > 1 else words), ""
    if declared.kind != "number":
        return words, ""
    return _number(declared, words, before if isinstance(before, Entry) else None)


def shown(declared: Field, value: object) -> str:
    """What a box shows for a value: the number alone, for the unit stands beside it."""
    match value:
        case Entry():
            if value.low is not None and value.high is not None and value.low != value.high:
                return measure.show_range(value.low, value.high, declared.unit)
            return measure.show_amount(value.value, declared.unit)
        case Decimal():
            return measure.show_money(value, sign=False)
        case bool():
            return YES if value else "no"
        case None:
            return ""
        case _:
            return measure.show_date(str(value)) if declared.kind == "date" and value else str(value)


def disagreement(declared: Field, value: Entry) -> str:
    """What is said of readings that differ: "Three widths, 2,380, 2,376, 2,383. Using 2,376, the least."; nothing where they agree."""
    if len(set(value.readings)) < 2:  # noqa: PLR2004 - one reading cannot disagree
        return ""
    first = declared.label.split(maxsplit=1)[0].lower()
    noun = f"{first}s" if first in _TAPED else "readings"
    count = _COUNTS[len(value.readings)] if len(value.readings) < len(_COUNTS) else str(len(value.readings))
    shown = [measure.show_amount(each, declared.unit) for each in (*value.readings, value.value)]
    least = ", the least" if value.value == min(value.readings) else ""
    return f"{count} {noun}, {', '.join(shown[:-1])}. Using {shown[-1]}{least}."


_TAPED: Final = frozenset({"width", "height", "depth", "length", "thickness"})
_COUNTS: Final = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine")


def _alternatives(parts: list[str], options: tuple[str, ...]) -> Iterator[str]:
    """The parts between one "or" and the next, those joined again that are one option together: 2000 or later."""
    while parts:
        taken = next((end for end in range(len(parts), 1, -1) if OR.join(parts[:end]).strip() in options), 1)
        yield OR.join(parts[:taken]).strip()
        parts = parts[taken:]


def _number(declared: Field, words: str, before: Entry | None) -> tuple[object, str]:
    if not words.strip():
        return None, ""
    known = before.known if before and before.known is not Known.ASSUMED else declared.known
    several = measure.read_several(words, declared.unit)
    if several:
        if isinstance(several, str):
            return None, several
        made = replace(before, value=min(several), known=known) if before else Entry(min(several), known)
        return _single(made, " ".join(words.split()), several), ""
    read = measure.read_range(words, declared.unit)
    if read.value is None or read.low is None or read.high is None:
        return None, read.problem
    made = replace(before, value=read.value, known=known) if before else Entry(read.value, known)
    if read.low != read.high:
        return replace(made, low=read.low, high=read.high, tbc=True, typed=read.note, readings=()), ""
    return _single(made, read.note, ()), ""


def _single(made: Entry, note: str, readings: tuple[float, ...]) -> Entry:
    """One value: a range is over, and with it the doubt that came of it."""
    return replace(made, low=None, high=None, tbc=made.tbc and made.low is None, typed=note, readings=readings)
