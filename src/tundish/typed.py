"""What was typed into a box, as the value of an input; and the value of an input, as a box shows it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from tundish import measure
from tundish.field import Entry, Field
from tundish.figure import Known

YES = "yes"


def taken(declared: Field, words: str, before: object) -> tuple[object, str]:
    """The value that words stand for, and what is wrong with them; a blank box clears the input.

    A number typed over keeps how the input is usually known; a range such as "8 to 12" makes it to be confirmed.
    """
    if declared.kind == "flag":
        return {YES: True, "true": True, "no": False, "false": False}.get(words.lower(), words), ""
    if declared.kind == "money":
        money = measure.read_money(words)
        return money.value, money.problem
    if declared.kind == "date":
        day = measure.read_date(words)
        return day.value or "", day.problem
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


def _number(declared: Field, words: str, before: Entry | None) -> tuple[object, str]:
    if not words.strip():
        return None, ""
    read = measure.read_range(words, declared.unit)
    if read.value is None or read.low is None or read.high is None:
        return None, read.problem
    known = before.known if before and before.known is not Known.ASSUMED else declared.known
    made = replace(before, value=read.value, known=known) if before else Entry(read.value, known)
    if read.low != read.high:
        return replace(made, low=read.low, high=read.high, tbc=True, typed=read.note), ""
    return replace(made, low=None, high=None, tbc=made.tbc and made.low is None, typed=read.note), ""
