"""A room with choices still open: every figure of it widened to what it comes to with any of them. Pure.

What is there of a room stays as with the first alternatives; a figure that others would move says by how much, and by which choice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any, Final, TypeVar, cast

from tundish.figure import Figure, Known, Term
from tundish.layout.recesses import Recess
from tundish.layout.room import Face, Member, Outfall, Piece, PipeRun, Placed, Room, TiledFloor
from tundish.layout.undecided import OpenChoice, OpenChoices, Picks

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Turned:
    """Something as it is with every combination of the open choices that was worked out; what is missing is not there with it.

    `choices` are the open ones; `whole` whether every combination was worked out.
    """

    choices: tuple[OpenChoice, ...]
    whole: bool
    by: Mapping[Picks, Any]

    @property
    def first(self) -> Any:
        """As it is with the first alternatives."""
        return self.by.get((0,) * len(self.choices))

    def alone(self) -> Iterator[tuple[OpenChoice, str, Any]]:
        """Each other alternative, the other choices as they stand: the choice, the alternative in words, how it is with it."""
        for picks, each in self.by.items():
            turned = [place for place, pick in enumerate(picks) if pick]
            if len(turned) == 1:
                choice = self.choices[turned[0]]
                yield choice, choice.names[picks[turned[0]]], each

    def of(self, by: Mapping[Picks, Any]) -> Turned:
        """Something else over the same choices."""
        return Turned(self.choices, self.whole, by)


def widened_rooms(rooms: Mapping[Picks, tuple[Room, ...]], open_: OpenChoices) -> tuple[Room, ...]:
    """The rooms as with the first alternatives, their figures widened over all."""
    together = Turned(open_.choices, open_.whole, {})
    first = rooms[(0,) * len(open_.choices)]
    return tuple(
        _turned(together.of({picks: each[place] for picks, each in rooms.items() if place < len(each)})) for place in range(len(first))
    )


def widened(turned: Turned) -> Figure:
    """The figure with the first alternatives, from the least to the most that it comes to with any.

    A term for each choice that moves it says how far, and carries its path; it adds nothing to the value. Where not every combination
    was worked out, what each choice alone would add is added up.
    """
    figure: Figure = turned.first
    alike = (figure.unit, figure.label)  # an upright of strut and a stud may both be U1, and are two things
    by = {picks: each for picks, each in turned.by.items() if isinstance(each, Figure) and (each.unit, each.label) == alike}
    if all((each.low, each.high) == (figure.low, figure.high) for each in by.values()):
        return figure
    shifts = [_shift(by, place) for place in range(len(turned.choices))]
    moved = tuple(
        Term("+", choice.figure(low, high, figure.unit))
        for choice, (low, high) in zip(turned.choices, shifts, strict=True)
        if low < 0 or high > 0
    )
    if not moved:
        return figure
    apart = (0.0, 0.0) if turned.whole else (sum(low for low, _ in shifts), sum(high for _, high in shifts))
    low = min(figure.low + apart[0], *(each.low for each in by.values()))
    high = max(figure.high + apart[1], *(each.high for each in by.values()))
    goes_on = figure.terms and figure.terms[-1].sign in _ADDED
    terms = (*(figure.terms if goes_on else (Term("+", figure),)), *moved)
    known = figure.known if goes_on else Known.WORKED_OUT
    return replace(figure, low=low, high=high, known=known, tbc=True, terms=terms, path="", when="")


def widened_alike(turned: Turned) -> Figure:
    """As `widened`, of what is one thing whatever each alternative calls it: what a check has, the amount of one item."""
    label = turned.first.label
    return widened(turned.of({picks: each if each.label == label else replace(each, label=label) for picks, each in turned.by.items()}))


def _shift(by: Mapping[Picks, Figure], place: int) -> tuple[float, float]:
    """How far below and above its first alternative one choice takes a figure, whatever is chosen of the others."""
    low = high = 0.0
    for picks, figure in by.items():
        before = by.get((*picks[:place], 0, *picks[place + 1 :]))
        if before is not None:
            low, high = min(low, figure.low - before.low), max(high, figure.high - before.high)
    return low, high


def _turned(turned: Turned) -> Any:
    one = turned.first
    if isinstance(one, Figure):
        return widened(turned)
    if isinstance(one, tuple):
        return _row(turned)
    if isinstance(one, Mapping):
        return {name: _turned(_at(turned, lambda each, name=name: each.get(name))) for name in one}
    if isinstance(one, _OF_A_ROOM):
        return _record(turned)
    return one


def _record(turned: Turned) -> Any:
    one = turned.first
    changed = {}
    for each in fields(one):
        before = getattr(one, each.name)
        if isinstance(before, (*_OF_A_ROOM, Figure, tuple, Mapping)):
            changed[each.name] = _turned(_at(turned, lambda other, name=each.name: getattr(other, name)))
    return replace(cast("Any", one), **changed)


def _row(turned: Turned) -> tuple[Any, ...]:
    """Rows that have a mark or a key are matched by it, others by their place where there are as many."""
    rows: tuple[Any, ...] = turned.first
    alike = {picks: each for picks, each in turned.by.items() if len(each) == len(rows)}
    named = {picks: {key: row for row in each if (key := _key(row))} for picks, each in turned.by.items()}
    made = []
    for place, row in enumerate(rows):
        key = _key(row)
        by = (
            {picks: each[key] for picks, each in named.items() if key in each}
            if key
            else {picks: each[place] for picks, each in alike.items()}
        )
        made.append(_turned(turned.of(by)))
    return tuple(made)


def _key(row: object) -> str:
    for kind, name in _KEYS:
        if isinstance(row, kind):
            return str(getattr(row, name))
    return ""


def _at(turned: Turned, part: Any) -> Turned:
    found = {picks: part(each) for picks, each in turned.by.items()}
    return turned.of({picks: each for picks, each in found.items() if each is not None})


_ADDED: Final = frozenset("+−")
_KEYS: Final[Sequence[tuple[type[Any], str]]] = (
    (Member, "mark"), (Piece, "mark"), (Placed, "key"), (PipeRun, "key"), (Face, "key"), (Recess, "key"), (Outfall, "name"),
)  # fmt: skip
_OF_A_ROOM: Final[tuple[type[Any], ...]] = (Room, TiledFloor, *(kind for kind, _ in _KEYS))
