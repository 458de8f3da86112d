"""What a piece is pulled to while it is moved, by name: tiles, equal gaps, the middle of the wall, what the rules ask at least."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.desktop.moves import Thing, things
from tundish.documents.shortfalls import FALL
from tundish.documents.tile_lines import columns, courses
from tundish.layout.room import Room
from tundish.rules.elbow_room import half_of
from tundish.rules.rule import Finding

GRIDS: Final = (10.0, 5.0, 1.0, 0.0)
"""What places are rounded to, mm, the first at first; 0 is off."""
PULL_PX: Final = 8.0
"""How near a piece is pulled from, in pixels."""
_OTHER: Final = frozenset({"niche", "hatch", "noggin"})


@dataclass(frozen=True, slots=True)
class Pull:
    """One place that pulls: the value of the input there, and what it is."""

    value: float
    name: str


def pulls_along(room: Room, thing: Thing, book: Book) -> tuple[Pull, ...]:
    """Places along the wall that pull a thing, as values of its input; those that matter most first."""
    off = thing.along.shown - thing.middle
    return tuple(Pull(middle + off, name) for middle, name in _middles(room, thing, book))


def pulls_up(room: Room, thing: Thing, findings: Iterable[Finding]) -> tuple[Pull, ...]:
    """Heights above the finished floor that pull a thing; the lowest that its fall allows comes first."""
    place, floor = f"{room.name}, {thing.name}", room.finished_floor.value
    lowest = (
        Pull(thing.up.shown - (each.has.value - each.least.value), "lowest the fall allows")
        for each in findings
        if each.rule == FALL and each.place == place and each.has is not None and each.least is not None
    )
    return (*lowest, *(Pull(z - floor, "tile joint") for z in courses(room)))


def snapped(value: float, pulls: Iterable[Pull], grid: float, near: float) -> Pull:
    """Where a thing comes to rest: at the nearest pull within reach, mm, or on the grid; the name is "" where nothing pulled."""
    close = [each for each in pulls if abs(each.value - value) <= near]
    if close:
        return min(close, key=lambda each: abs(each.value - value))
    return Pull(round(value / grid) * grid if grid else round(value, 1), "")


def _middles(room: Room, thing: Thing, book: Book) -> Iterator[tuple[float, str]]:
    """Places of the middle of a thing that pull, with their names."""
    yield from _clearances(room, thing, book)
    yield from _equal_gaps(room, thing)
    yield room.start.value + room.run.value / 2, "wall centre"
    lines = columns(room)
    yield from ((x, "tile joint") for x in lines)
    edges = (room.start.value, *lines, room.start.value + room.run.value)
    yield from (((left + right) / 2, "tile centre") for left, right in pairwise(edges))


def _others(room: Room, thing: Thing) -> list[Thing]:
    """The other appliances, left to right: a thing may be dragged past any of them."""
    return [each for each in things(room) if each.key != thing.key and each.kind not in _OTHER]


def _equal_gaps(room: Room, thing: Thing) -> Iterator[tuple[float, str]]:
    """The middle of every gap between the others, and between them and the walls, that is wide enough for it."""
    others = _others(room, thing)
    if not others:
        return
    ends = ((0.0, 0.0), *((each.left, each.right) for each in others), (room.width.value, room.width.value))
    for (_, left), (right, _) in pairwise(ends):
        if right - left >= thing.right - thing.left:
            yield (left + right) / 2, "equal gaps"


def _clearances(room: Room, thing: Thing, book: Book) -> Iterator[tuple[float, str]]:
    """As near to a side wall or a neighbour as the rules want it."""
    half = (thing.right - thing.left) / 2
    for least in (half_of(one, book).value for one in room.framed if one.key == thing.key):
        yield from ((least, "least clearance"), (room.width.value - least, "least clearance"))
    if thing.kind not in _OTHER:
        gap = book.figure("space.ware_gap").value
        for each in _others(room, thing):
            yield each.right + gap + half, "least clearance"
            yield each.left - gap - half, "least clearance"
