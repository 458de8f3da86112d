"""The rule book run over a room, and the needs of all rooms merged into lines that keep every reason."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from operator import is_
from typing import Final

from tundish.catalogue.book import Book, NotInBookError
from tundish.catalogue.item import Item
from tundish.errors import TundishError
from tundish.field import Problem
from tundish.figure import Figure, total
from tundish.layout.room import Room
from tundish.rules.book import RULES
from tundish.rules.rule import LABOUR, Asked, Caution, Decision, Finding, Need, Rule, Said, Stage
from tundish.takeoff.line import Line
from tundish.takeoff.own_rules import OWN_RULE, own_needs


@dataclass(frozen=True, slots=True)
class Otherwise:
    """A choice still open in a room: what it is to it, in words, that no range can show, and the stages that need it settled.

    `choice` is the choice as a figure: its label, its path, and its alternatives as the note.
    """

    choice: Figure
    words: tuple[str, ...]
    stages: tuple[Stage, ...]


@dataclass(frozen=True, slots=True)
class RoomTake:
    """What the rules say about one room. `lines` are its materials; hours are needs with the role LABOUR and in no line.

    `otherwise` has one for each choice of the room that is still open.
    """

    name: str
    needs: tuple[Need, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    decisions: tuple[Decision, ...]
    problems: tuple[Problem, ...]
    lines: tuple[Line, ...]
    otherwise: tuple[Otherwise, ...] = ()


def run_room(room: Room, book: Book, rules: tuple[Rule, ...] = RULES) -> RoomTake:
    """Run the rules that read the room, then those that read what was asked for, then those that read the list; trouble is a problem.

    Everything said carries its rule and the room's name, with the place in the room after it where the rule names one.
    """
    problems: list[Problem] = []
    said: list[Said] = []
    for each in rules:
        if each.reads == "room" and (not each.whole or room.first):
            said += _say(each, room, room, book, problems)
    asked = Asked(room, tuple(one for one in said if isinstance(one, Need)))
    for each in rules:
        if each.reads == "needs" and (not each.whole or room.first):
            said += _say(each, asked, room, book, problems)
    asked_for = [one for one in said if isinstance(one, Need)]
    said += (stamped(one, OWN_RULE, room.name) for one in own_needs(room, asked_for, book))
    needs = tuple(one for one in said if isinstance(one, Need))
    for each in rules:
        if each.reads == "list":
            said += _say(each, Asked(room, needs), room, book, problems)
    return RoomTake(
        room.name,
        needs,
        tuple(one for one in said if isinstance(one, Finding)),
        tuple(one for one in said if isinstance(one, Caution)),
        tuple(one for one in said if isinstance(one, Decision)),
        tuple(problems),
        lines_of(room.name, needs, book),
    )


def lines_of(name: str, needs: tuple[Need, ...], book: Book) -> tuple[Line, ...]:
    """The lines that needs come to in a room of this name."""
    grouped: dict[tuple[str, bool], list[Need]] = {}
    for need in needs:
        if need.role != LABOUR:
            grouped.setdefault((_item(need, book).code, need.own), []).append(need)
    return tuple(
        Line(book.item(code), total([need.amount for need in same], name), tuple(same), own) for (code, own), same in grouped.items()
    )


def merge(takes: Iterable[RoomTake]) -> tuple[Line, ...]:
    """One line for each item that the rooms of a job need, in the order they were first asked for.

    What a client supplies is a line of its own. The amount has one term for each need, or for each room where there are several.
    """
    kept = tuple(takes)
    grouped: dict[tuple[str, bool], list[Line]] = {}
    for take in kept:
        for line in take.lines:
            grouped.setdefault((line.item.code, line.own), []).append(line)
    return tuple(_remembered(lines, several=len(kept) > 1) for lines in grouped.values())


def steady(take: RoomTake, before: RoomTake | None) -> RoomTake:
    """The same take, with each line that is as it was before being the very object it was: what rests on it need not be made again."""
    if before is None:
        return take
    old = {(line.item.code, line.own): line for line in before.lines}
    kept = ((line, old.get((line.item.code, line.own))) for line in take.lines)
    return replace(take, lines=tuple(was if was is not None and _alike(was, line) else line for line, was in kept))


def _alike(one: Line, other: Line) -> bool:
    """Whether two lines of rooms are the same. Their amounts are the totals of their needs, under the name of the room."""
    return one.needs == other.needs and one.item == other.item and one.amount.label == other.amount.label


_MERGED: Final[dict[tuple[str, bool], tuple[list[Line], bool, Line]]] = {}
"""The last answer for each item, with the lines it was made of."""


def _remembered(lines: list[Line], *, several: bool) -> Line:
    key = (lines[0].item.code, lines[0].own)
    held = _MERGED.get(key)
    if held is not None and held[1] == several and len(held[0]) == len(lines) and all(map(is_, held[0], lines)):
        return held[2]
    made = _merged(lines, several=several)
    _MERGED[key] = (lines, several, made)
    return made


def _merged(lines: list[Line], *, several: bool) -> Line:
    first = lines[0]
    label = first.item.name
    amount = total([line.amount for line in lines], label) if several else first.amount.named(label)
    return Line(first.item, amount, tuple(need for line in lines for need in line.needs), first.own)


def _say(each: Rule, reads: Room | Asked, room: Room, book: Book, problems: list[Problem]) -> list[Said]:
    """What a rule says, up to where it could not be worked out."""
    said: list[Said] = []
    place = room.room_name if each.whole else room.name
    try:
        for one in each.says(reads, book):
            wrong = _wrong(one, book) if isinstance(one, Need) else ""
            if wrong:
                problems.append(Problem(room.path, f"{room.name}: {each.sentence} {wrong}"))
            else:
                said.append(stamped(one, each.key, place))
    except (TundishError, ArithmeticError, ValueError) as error:
        problems.append(Problem(room.path, f"{room.name}: {each.sentence} This could not be worked out: {error}."))
    return said


def stamped(one: Said, key: str, room: str) -> Said:
    """Something said, with its rule and its place."""
    place = room if isinstance(one, Decision) or not one.place else f"{room}, {one.place}"
    # Written out, for there are hundreds: replace() takes three times as long.
    if isinstance(one, Need):
        return Need(one.amount, one.stage, one.why, one.role, one.item, place, one.cuts, one.own, key, one.work)
    if isinstance(one, Finding):
        return Finding(
            one.title, one.group, one.state, one.has, one.set_by, one.source, one.least, one.most, one.message, place,
            one.ways_out, key, one.weighed, one.spot,
        )  # fmt: skip
    if isinstance(one, Caution):
        return Caution(one.title, one.words, place, key)
    return Decision(one.key, one.title, one.why, one.by, one.shown_by, one.rests_on, one.paths, key, place, one.proof)


def _wrong(need: Need, book: Book) -> str:
    """What is wrong with the item a need names, for the user to mend in the catalogue; empty when it can be used."""
    if need.role == LABOUR:
        return ""
    try:
        item = _item(need, book)
    except NotInBookError as error:
        return f"This could not be asked for: {error}."
    unit = "m²" if need.cuts and any(cut.width is not None for cut in need.cuts) else item.unit
    if need.amount.unit != unit:
        return f"It asks for {need.amount.unit or 'a number'}, and {item.name} is counted in {unit}."
    return ""


def _item(need: Need, book: Book) -> Item:
    return book.item(need.item) if need.item else book.role(need.role)
