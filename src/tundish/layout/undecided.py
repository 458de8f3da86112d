"""Choices that are still this or that: how a plan holds them, and every plan that may come of them.

The choice itself is the first alternative, which lists and price go by; the others stand in the plan's `undecided`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Any, Final

from tundish import plain
from tundish.catalogue.book import Book
from tundish.field import Field, NoSuchInputError, Problem, describe, get, moved_up, put
from tundish.figure import Figure, Known
from tundish.layout.design import RoomPlan, Undecided

CHOICES: Final = ("choice", "wall", "item", "flag")
"""The kinds of input that may be this or that."""
MOST_OTHERS: Final = 3
MOST_OPEN: Final = 12
MOST_TOGETHER: Final = 8
"""Up to so many plans every combination is worked out; beyond it each choice is turned alone."""
_INTO_ROOM: Final = 2
_YES_NO: Final = {"yes": True, "no": False}
Picks = tuple[int, ...]
"""Which alternative is taken of each open choice; 0 is the first."""


@dataclass(frozen=True, slots=True)
class OpenChoice:
    """One choice that is still open: its path in the job, and its alternatives as held and in words, the first first."""

    path: str
    label: str
    values: tuple[str, ...]
    names: tuple[str, ...]

    @property
    def words(self) -> str:
        """The alternatives as they are read: Cement board or Gypsum board."""
        return " or ".join(self.names)

    def figure(self, low: float = 0.0, high: float = 0.0, unit: str = "") -> Figure:
        """What the choice may still add to a figure, by which the figure knows that it rests on it."""
        return Figure(0.0, low, high, unit, self.label, Known.ASSUMED, tbc=True, note=self.words, path=self.path)


@dataclass(frozen=True, slots=True)
class OpenChoices:
    """The open choices of a plan with the plan of each combination, the plan as it stands first. `whole`: that is every combination."""

    choices: tuple[OpenChoice, ...]
    plans: Mapping[Picks, RoomPlan]
    whole: bool
    problems: tuple[Problem, ...]


def place_of(path: str) -> tuple[str, str] | None:
    """The room and the place within it of a path in the job, where choices may be left open; None elsewhere.

    When a photograph was taken is no choice.
    """
    words = path.split(".")
    if len(words) <= _INTO_ROOM or words[0] != "rooms" or words[_INTO_ROOM] not in {"survey", "design"} or "photographs" in words:
        return None
    return ".".join(words[:_INTO_ROOM]), ".".join(words[_INTO_ROOM:])


def in_words(value: object) -> str:
    """A choice as an alternative is written: yes and no for what is ticked or not."""
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def as_held(declared: Field, alternative: object) -> object:
    """An alternative as the input itself holds it."""
    return _YES_NO.get(alternative, alternative) if declared.kind == "flag" and isinstance(alternative, str) else alternative


def others(plan: RoomPlan, within: str) -> tuple[str, ...]:
    """What else the choice at a place of the plan may still be."""
    return tuple(row.other for row in plan.undecided if row.choice == within)


def chosen(plan: RoomPlan, within: str, values: Sequence[str]) -> RoomPlan:
    """The plan with a choice set to the first of `values`, open between them where there are several; one alone settles it."""
    first, *rest = dict.fromkeys(values)
    rows = (*(row for row in plan.undecided if row.choice != within), *(Undecided(choice=within, other=each) for each in rest))
    return replace(put(plan, within, as_held(describe(RoomPlan, within), first)), undecided=rows)


def with_value(plan: RoomPlan, within: str, value: Any) -> RoomPlan:
    """The plan with another value of one input; a choice that is open is settled at it."""
    return chosen(plan, within, (value,)) if others(plan, within) else put(plan, within, value)


def without_row(plan: RoomPlan, listed: str, place: int) -> RoomPlan:
    """The plan's open choices after one record was taken out of a list of it: its own go, those of later ones move up."""
    moved = ((row, moved_up(row.choice, listed, place)) for row in plan.undecided)
    return replace(plan, undecided=tuple(replace(row, choice=choice) for row, choice in moved if choice is not None))


def open_choices(plan: RoomPlan, book: Book, path: str) -> OpenChoices:
    """The choices of a plan that are still open, and every plan that may come of them; what cannot be used of them is told."""
    problems: list[Problem] = []
    found: dict[str, OpenChoice] = {}
    for place, row in enumerate(plan.undecided):
        wrong = _wrong(plan, row, found)
        if wrong:
            problems.append(Problem(f"{path}.undecided.{place}", wrong))
            continue
        one = found.get(row.choice) or _first(plan, row.choice, book, path)
        found[row.choice] = replace(one, values=(*one.values, row.other), names=(*one.names, _name(row.other, book)))
    choices = tuple(found.values())
    whole = math.prod(len(each.values) for each in choices) <= MOST_TOGETHER
    picks = product(*(range(len(each.values)) for each in choices)) if whole else _one_at_a_time(choices)
    return OpenChoices(choices, {each: _picked(plan, tuple(found), choices, each) for each in picks}, whole, tuple(problems))


def _wrong(plan: RoomPlan, row: Undecided, found: Mapping[str, OpenChoice]) -> str:
    """Why a row cannot be used, in words to mend it; nothing where it can."""
    declared = _declared(plan, row.choice)
    if declared is None:
        return f"{row.choice or 'a choice left open'} no longer fits the room: choose again, or take it out"
    _, wrong = plain.check(declared, as_held(declared, row.other), row.choice)
    if wrong:
        return wrong[0].text
    if row.choice not in found and len(found) >= MOST_OPEN:
        return f"{declared.label}: at most {MOST_OPEN} choices of a room can be left open; settle one first"
    taken = found[row.choice].values if row.choice in found else (in_words(get(plan, row.choice)),)
    if row.other in taken:
        return f"{declared.label}: the same is said twice; take one out"
    return "" if len(taken) <= MOST_OTHERS else f"{declared.label}: at most {MOST_OTHERS + 1} can be left open; take one out"


def _declared(plan: RoomPlan, within: str) -> Field | None:
    try:
        declared = describe(RoomPlan, within)
        get(plan, within)
    except NoSuchInputError:
        return None
    return declared if declared.kind in CHOICES and not within.startswith("undecided") else None


def _first(plan: RoomPlan, within: str, book: Book, path: str) -> OpenChoice:
    declared, value = describe(RoomPlan, within), in_words(get(plan, within))
    owner = getattr(get(plan, within.rpartition(".")[0]), "name", "")
    label = f"{declared.label}, {owner}" if owner else declared.label
    return OpenChoice(f"{path}.{within}", label, (value,), (_name(value, book),))


def _name(value: str, book: Book) -> str:
    item = book.items.get(value)
    return item.name if item else value or "none"


def _one_at_a_time(choices: Sequence[OpenChoice]) -> Iterator[Picks]:
    yield (0,) * len(choices)
    for place, each in enumerate(choices):
        for pick in range(1, len(each.values)):
            yield tuple(pick if at == place else 0 for at in range(len(choices)))


def _picked(plan: RoomPlan, places: Sequence[str], choices: Sequence[OpenChoice], picks: Picks) -> RoomPlan:
    settled = replace(plan, undecided=())
    for within, each, pick in zip(places, choices, picks, strict=True):
        settled = put(settled, within, as_held(describe(RoomPlan, within), each.values[pick]))
    return settled
