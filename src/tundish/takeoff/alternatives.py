"""A room worked out and taken off; where choices are open, with each of them, and brought together: ranges, verdicts, and words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any, Final, TypeVar

from tundish import measure
from tundish.catalogue.book import Book
from tundish.errors import NotWantedError
from tundish.field import Problem
from tundish.figure import number
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.layout.undecided import OpenChoice, open_choices
from tundish.layout.widened import Turned, widened_alike, widened_rooms
from tundish.layout.work_out import work_out_all
from tundish.rules.rule import LABOUR, STAGES, Caution, Cut, Decision, Need, Stage
from tundish.takeoff.line import Line
from tundish.takeoff.matched import matched
from tundish.takeoff.run import Otherwise, RoomTake, lines_of, run_room
from tundish.takeoff.weighed import weighed

T = TypeVar("T")
Wanted = Callable[[], bool]
"""Asked before each piece of a long working; once it says no, the working is left with a NotWantedError."""
MOST_NAMED: Final = 6


def always() -> bool:
    """The answer is wanted, whatever happens."""
    return True


def taken_off(plan: RoomPlan, book: Book, path: str, wanted: Wanted = always) -> tuple[tuple[Room, RoomTake], ...]:
    """A room at each of its pre-walls, worked out and taken off, over every choice that is still open in it.

    Everything is there as with the first alternatives; figures, amounts and cut lengths have the range over all, checks their verdict.
    """
    if not plan.undecided:
        return tuple((room, run_room(room, book)) for room in _while_wanted(work_out_all(plan, book, path), wanted))
    open_ = open_choices(plan, book, path)
    rooms = {picks: work_out_all(open_.plans[picks], book, path) for picks in _while_wanted(open_.plans, wanted)}
    takes = {picks: tuple(run_room(room, book) for room in rooms[picks]) for picks in _while_wanted(rooms, wanted)}
    together = Turned(open_.choices, open_.whole, {})
    made = []
    for place, room in enumerate(widened_rooms(rooms, open_)):
        turned = together.of({picks: each[place] for picks, each in takes.items() if place < len(each)})
        take = _take(turned, book)
        found = together.of({picks: each[place] for picks, each in rooms.items() if place < len(each)})
        told = (*open_.problems, *room.problems, *_only(found, lambda each: each.problems, _problem))
        whole = replace(room, plan=plan, problems=tuple(dict.fromkeys(told)))
        made.append((whole, replace(take, otherwise=_otherwise(found, turned))))
    return tuple(made)


def _while_wanted(pieces: Iterable[T], wanted: Wanted) -> Iterator[T]:
    for each in pieces:
        if not wanted():
            raise NotWantedError
        yield each


def _take(turned: Turned, book: Book) -> RoomTake:
    first: RoomTake = turned.first
    needs = _needs(turned)
    return replace(
        first,
        needs=needs,
        findings=weighed(turned.of({picks: each.findings for picks, each in turned.by.items()})),
        cautions=(*first.cautions, *_only(turned, lambda each: each.cautions, _caution)),
        decisions=(*first.decisions, *_only(turned, lambda each: each.decisions, _decision, lambda each: each.key)),
        problems=(*first.problems, *_only(turned, lambda each: each.problems, _problem)),
        lines=tuple(_line(line, turned) for line in lines_of(first.name, needs, book)),
    )


def _needs(turned: Turned) -> tuple[Need, ...]:
    first: RoomTake = turned.first
    found = {picks: matched(first.needs, each.needs, _NEED_KEYS) for picks, each in turned.by.items()}
    return tuple(_need(turned.of({picks: each[place] for picks, each in found.items()})) for place in range(len(first.needs)))


def _need(turned: Turned) -> Need:
    """A need over the alternatives: where one of them does not have it, it may be nothing."""
    need: Need = turned.first
    none = number(0.0, need.amount.unit)
    amount = widened_alike(turned.of({picks: each.amount if each else none for picks, each in turned.by.items()}))
    there = {picks: each for picks, each in turned.by.items() if each}
    cuts = tuple(_cut(turned.of({picks: cut for picks, each in there.items() if (cut := _same(one, each))})) for one in need.cuts)
    return need if amount is need.amount and cuts == need.cuts else replace(need, amount=amount, cuts=cuts)


def _same(cut: Cut, need: Need) -> Cut | None:
    return next((each for each in need.cuts if (each.mark, each.what) == (cut.mark, cut.what)), None)


def _cut(turned: Turned) -> Cut:
    one: Cut = turned.first
    length = widened_alike(turned.of({picks: each.length for picks, each in turned.by.items()}))
    width = one.width and widened_alike(turned.of({picks: each.width for picks, each in turned.by.items() if each.width}))
    return one if length is one.length and width is one.width else replace(one, length=length, width=width)


def _line(line: Line, turned: Turned) -> Line:
    """A line over the alternatives: its amount with each of them, for what one no longer asks for another may ask for instead."""
    code = (line.item.code, line.own)
    none = number(0.0, line.amount.unit)
    by = {picks: next((one.amount for one in each.lines if (one.item.code, one.own) == code), none) for picks, each in turned.by.items()}
    return replace(line, amount=widened_alike(turned.of(by)))


def _only(
    turned: Turned,
    part: Callable[[Any], Iterable[T]],
    made: Callable[[T, OpenChoice, str], T],
    key: Callable[[T], Hashable] = lambda each: each,
) -> Iterator[T]:
    """What is said with another alternative alone, made to say so."""
    seen = {key(each) for each in part(turned.first)}
    for choice, name, one in turned.alone():
        for each in part(one):
            if key(each) not in seen:
                seen.add(key(each))
                yield made(each, choice, name)


def _problem(one: Problem, choice: OpenChoice, name: str) -> Problem:
    return Problem(choice.path, f"With {name}: {one.text}")


def _caution(one: Caution, _choice: OpenChoice, name: str) -> Caution:
    return replace(one, words=f"With {name}: {one.words}")


def _decision(one: Decision, _choice: OpenChoice, name: str) -> Decision:
    return replace(one, why=f"With {name}: {one.why}")


def _otherwise(rooms: Turned, takes: Turned) -> tuple[Otherwise, ...]:
    """For each choice what its other alternatives add, leave out and ask for besides, and the first stages that it bears on."""
    words: dict[str, list[str]] = {each.path: [] for each in takes.choices}
    stages: dict[str, set[Stage]] = {each.path: set() for each in takes.choices}
    others = {choice.path + name: one for choice, name, one in rooms.alone()}
    for choice, name, take in takes.alone():
        room = others[choice.path + name]
        said = (*_members(rooms.first, room), *_bought(takes.first, take))
        words[choice.path] += (f"With {name}: {'; '.join(said)}",) if said else ()
        stages[choice.path] |= _stages(takes.first, take)
    return tuple(
        Otherwise(each.figure(), tuple(words[each.path]), tuple(stage for stage in STAGES if stage in stages[each.path]))
        for each in takes.choices
    )


def _members(first: Room, other: Room) -> Iterator[str]:
    """The members and boards that one has and the other has not, by their marks."""
    before, after = _marks(first), _marks(other)
    more, fewer = [each for each in after if each not in before], [each for each in before if each not in after]
    if more:
        yield f"also {_named(more)}"
    if fewer:
        yield f"no {_named(fewer)}"


def _marks(room: Room) -> list[str]:
    boards = (piece.mark for face in room.faces for piece in face.boards)
    return list(dict.fromkeys((*(each.mark for each in room.members), *boards)))


def _bought(first: RoomTake, other: RoomTake) -> Iterator[str]:
    """What the other needs that the first does not, and how many hours apart they are."""
    had = {line.item.code for line in first.lines}
    more = [f"{_amount(line)} {line.item.name}" for line in other.lines if line.item.code not in had]
    if more:
        yield f"needs {_named(more)}"
    hours = round(_hours(other) - _hours(first), 2)
    if hours:
        yield f"{measure.show_hours(abs(hours))} h {'more' if hours > 0 else 'less'}"


def _amount(line: Line) -> str:
    shown = measure.show_amount(line.amount.value, line.amount.unit)
    return shown if line.amount.unit in {"", "each"} else f"{shown} {line.amount.unit} of"


def _hours(take: RoomTake) -> float:
    return sum(need.amount.value for need in take.needs if need.role == LABOUR)


def _stages(first: RoomTake, other: RoomTake) -> set[Stage]:
    """The stages of what one needs and the other does not, or not so much of."""
    before, after = _asked(first), _asked(other)
    return {key[0] for key in (*(before - after), *(after - before))}


def _asked(take: RoomTake) -> Counter[tuple[Stage, str, str, float]]:
    return Counter((need.stage, need.role, need.item, need.amount.value) for need in take.needs if need.role != LABOUR)


def _named(names: Sequence[str]) -> str:
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return ", ".join(names[:MOST_NAMED]) + more


_NEED_KEYS: Final[tuple[Callable[[Need], Hashable], ...]] = (
    lambda need: (need.rule, need.place, need.role, need.item, need.own, need.why),
    lambda need: (need.rule, need.place, need.role, need.item, need.own),
)
