"""How far what is behind the boards is from an opening through which a hand can get at it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final, NamedTuple

from tundish.catalogue.book import Book
from tundish.figure import Figure, number, smallest
from tundish.layout.recesses import Recess
from tundish.layout.room import PipeRun, Placed, Room
from tundish.measure import show_length
from tundish.rules.rule import WayOut

REACH: Final = ("space.arm", "space.hand")
"""The figures that reach is reckoned with."""


class Hidden(NamedTuple):
    """Something behind the boards that has to be reached afterwards: what it is, and where."""

    what: str
    x: float
    y: float
    z: float


class Reached(NamedTuple):
    """How many of some hidden things are reached, and of the others what is in the way, in words."""

    found: int
    missed: str


def valves(room: Room, one: Placed) -> tuple[Hidden, ...]:
    """Where the hot and the cold of an appliance are shut off: where they go up, below what they end in."""
    runs = (run for run in room.pipes_of("hot", "cold") if run.serves == one.key)
    return tuple(Hidden(f"the {run.kind} valve", run.points[-1][0], _behind(run), run.points[-1][1]) for run in runs)


def air_valve(room: Room, one: Placed) -> tuple[Hidden, ...]:
    """The air admittance valve of an appliance: above its overflow, over where its branch or waste begins."""
    runs = (run for run in room.pipes_of("soil", "waste") if run.serves == one.key)
    return tuple(Hidden("the air valve", one.centre.value, _behind(run), one.figures["top"].value) for run in runs)


def hand_hole(hatch: Recess) -> Figure:
    """The smaller side of an access opening, through which hand and tool have to go."""
    return smallest(hatch.width, hatch.height, label=f"Smaller side of {hatch.name}")


def reached(room: Room, hidden: Sequence[Hidden], book: Book) -> Reached:
    """Which of these an arm gets at through an opening: sideways, up or down, and in, all at once; a hand must go through it."""
    arm = book.figure("space.arm").value
    hatches = _for_hands(room, book)
    far = [(each, min((_far(room, hatch, each) for hatch in hatches), default=math.inf)) for each in hidden]
    missed = [f"{each.what}, {show_length(math.ceil(off))} from the nearest opening" for each, off in far if arm < off < math.inf]
    return Reached(sum(off <= arm for _, off in far), "; ".join(missed))


def moved(room: Room, hidden: Sequence[Hidden], book: Book) -> tuple[WayOut, ...]:
    """An opening that is there, moved along the wall to before these, where that brings all of them in reach."""
    arm, middle = book.figure("space.arm").value, sum(each.x for each in hidden) / len(hidden)
    ways = []
    for hatch in _for_hands(room, book):
        left = number(round(middle - hatch.width.value / 2), label="Left edge")
        there = replace(hatch, left=left)
        if all(_far(room, there, each) <= arm for each in hidden):
            words = f"Move {hatch.name} to {show_length(left.value)} from the left wall: what it reached before has to be looked at again."
            ways.append(WayOut(words, f"{hatch.path}.from_left", left.value))
    return tuple(ways[:1])


def _for_hands(room: Room, book: Book) -> list[Recess]:
    hand = book.figure("space.hand").value
    return [each for each in room.recesses if each.kind == "hatch" and hand_hole(each).value >= hand]


def _behind(run: PipeRun) -> float:
    return run.from_wall.value if run.from_wall is not None else 0.0


def _far(room: Room, hatch: Recess, to: Hidden) -> float:
    """From the nearest of an opening, in the finished face, to something behind it."""
    aside = max(hatch.open_left.value - to.x, to.x - hatch.open_right.value, 0.0)
    up = max(hatch.open_foot.value - to.z, to.z - hatch.open_head.value, 0.0)
    return math.hypot(aside, up, room.figures["finished_face"].value - to.y)
