"""What the trader's own rules ask for in a room: how much of what they count there is, times what they allow for each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.own_rules import HOURS, OwnRule, allowed, problems_of, unit_of
from tundish.field import Problem
from tundish.figure import Figure, Known, converted, number, round_up, total
from tundish.layout.room import Room
from tundish.rules.grounds import on_joists, on_solid_wall
from tundish.rules.rule import LABOUR, STAGES, Need
from tundish.rules.site.waste import waste_volume

OWN_RULE: Final = "own rule"
"""What stands where the key of a supplied rule would."""
PIPES: Final = ("soil pipe", "waste pipe", "water pipe")


def own_needs(room: Room, needs: Sequence[Need], book: Book) -> Iterator[Need]:
    """A need for each of the book's own rules that has anything to count in this room; those with a problem are left out."""
    wrong = {problem.path.split(".")[1] for problem in own_problems(book)}
    for place, rule in enumerate(book.own_rules):
        if str(place) in wrong or not _WHEN[rule.when](room):
            continue
        count = _EVERY[rule.every](room, needs, book)
        if count.high > 0:
            yield _need(rule, count, book)


def own_problems(book: Book) -> tuple[Problem, ...]:
    """What is wrong with the book's own rules."""
    named = {rule.item.strip() for rule in book.own_rules}
    sheets = frozenset(code for code in named if any(offer.width for offer in book.offers.get(code, ())))
    return tuple(problems_of(book.own_rules, book.items, sheets))


def _need(rule: OwnRule, count: Figure, book: Book) -> Need:
    name = rule.name.strip() or "own rule"
    unit = unit_of(rule, book.items)
    each = number(allowed(rule, book.items) or 0.0, unit, f"For every {rule.every}", Known.RATE)
    amount = replace(count, unit="") * each
    whole = round_up(amount, 1.0, name) if rule.rounded else amount.named(name)
    stage = next(each for each in STAGES if each == rule.stage)
    if rule.item.strip() == HOURS:
        return Need(whole, stage, name, role=LABOUR)
    return Need(whole, stage, name, item=rule.item.strip())


def _number_of(count: int, what: str) -> Figure:
    return number(count, "", what)


def _metres(lengths: Sequence[Figure], what: str) -> Figure:
    return converted(total(lengths, what), "m", what)


def _strut(room: Room, needs: Sequence[Need], _book: Book) -> Figure:
    found = [one.amount for one in needs if one.item == room.strut.code or one.role in {"strut", "timber stud"}]
    return _metres(found, "Strut and studwork")


def _pipe(_room: Room, needs: Sequence[Need], book: Book) -> Figure:
    items = ((one, book.item(one.item) if one.item else book.role(one.role)) for one in needs if one.role != LABOUR)
    return _metres([one.amount for one, item in items if item.kind in PIPES and item.unit == "mm"], "Pipe")


def _board(_room: Room, needs: Sequence[Need], _book: Book) -> Figure:
    found = [one.amount for one in needs if any(cut.width is not None for cut in one.cuts)]
    return total(found, "Board", "m²")


def _tiles(room: Room, _needs: Sequence[Need], _book: Book) -> Figure:
    return total([face.tiled_area for face in room.faces], "Tiles", "m²")


def _waste(room: Room, _needs: Sequence[Need], book: Book) -> Figure:
    return replace(waste_volume(room, book), unit="m³") if room.first else _number_of(0, "Waste")


def _days(needs: Iterable[Need], book: Book, what: str) -> Figure:
    """Days on site that the hours so far come to."""
    hours = total([one.amount for one in needs if one.role == LABOUR], what, "h")
    return (hours / book.figure("site.day_h")).named(what)


_EVERY: Final[Mapping[str, Callable[[Room, Sequence[Need], Book], Figure]]] = {
    "room": lambda room, _needs, _book: _number_of(int(room.first), "Room"),
    "job": lambda room, _needs, _book: _number_of(int(room.first and room.path in {"", "rooms.0"}), "Job"),
    "frame": lambda room, _needs, _book: _number_of(len(room.framed), "Frames"),
    "WC": lambda room, _needs, _book: _number_of(len(room.of_kind("wc", "accessible wc")), "WCs"),
    "basin": lambda room, _needs, _book: _number_of(len(room.of_kind("basin")), "Basins"),
    "appliance": lambda room, _needs, _book: _number_of(len(room.placed), "Appliances"),
    "pre-wall": lambda _room, _needs, _book: _number_of(1, "Pre-wall"),
    "metre of strut or studwork": _strut,
    "metre of pipe": _pipe,
    "square metre of board": _board,
    "square metre of tiles": _tiles,
    "cubic metre of waste": _waste,
    "day of work": lambda _room, needs, book: _days(needs, book, "Days of work"),
    "day of tiling": lambda _room, needs, book: _days([one for one in needs if one.work == "tiling"], book, "Days of tiling"),
}
_WHEN: Final[Mapping[str, Callable[[Room], bool]]] = {
    "always": lambda _room: True,
    "steel pre-wall": lambda room: room.of_steel,
    "timber pre-wall": lambda room: not room.of_steel,
    "on joists": on_joists,
    "on a solid floor": lambda room: not on_joists(room),
    "on a solid wall": on_solid_wall,
    "on a stud wall": lambda room: not on_solid_wall(room),
    "built before 2000 or not known": lambda room: room.plan.survey.existing.built != "2000 or later",
}
