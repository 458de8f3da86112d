"""The walls of a room in plan: where each begins and ends, which way it looks, and a place on one of them seen from another.

Plan: x along wall A from its left end, y out of wall A into the room. The walls follow clockwise seen from above, so that each begins,
on its left seen from inside the room, where the one before it ends.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from operator import attrgetter
from typing import Final

from tundish.figure import Figure
from tundish.record import record
from tundish.survey.survey import Survey
from tundish.survey.wall import Wall, wall_letter

Point = tuple[float, float]
_TOUCHES: Final = 0.5


@dataclass(frozen=True, slots=True)
class WallSide:
    """One wall in plan. `angle` is the corner at its left, inside the room; `heading` is which way it runs, turned from wall A's."""

    letter: str
    start: Point
    end: Point
    length: Figure
    angle: float
    heading: float

    def in_plan(self, x: float, y: float) -> Point:
        """A place along this wall and out of it, in plan."""
        turn = math.radians(self.heading)
        along, out = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
        return self.start[0] + x * along[0] + y * out[0], self.start[1] + x * along[1] + y * out[1]

    def on_wall(self, place: Point) -> Point:
        """A place in plan as a place along this wall and out of it."""
        turn = math.radians(self.heading)
        dx, dy = place[0] - self.start[0], place[1] - self.start[1]
        return dx * math.cos(turn) + dy * math.sin(turn), dy * math.cos(turn) - dx * math.sin(turn)


@record
class Fold:
    """A corner of the room as it comes along one wall, the walls unrolled; `angle` is the one inside the room."""

    x: float
    angle: float

    @property
    def legs(self) -> float:
        """How much shorter a run along both walls is for each mm that it lies off them: 2 in a square corner, less than 0 outside."""
        return round(2 / math.tan(math.radians(self.angle) / 2), 9)


@dataclass(frozen=True, slots=True)
class Shape:
    """All walls of a room, A first; `square` says that it is a plain box. Walls that make no room stand in one line."""

    sides: tuple[WallSide, ...]
    square: bool = True

    @property
    def corners(self) -> tuple[Point, ...]:
        """The left end of each wall, in plan."""
        return tuple(side.start for side in self.sides)

    def place_of(self, letter: str) -> int | None:
        """Which of the walls that is; None where the room has no such wall."""
        return next((place for place, side in enumerate(self.sides) if side.letter == letter), None)

    def seen_from(self, place: int, on: int, x: Figure) -> Figure:
        """A place along one wall as it is reckoned along another, the walls unrolled, the shorter way round: left of it is below zero."""
        if on == place:
            return x
        ahead = [self.sides[each % len(self.sides)].length for each in range(place, on if on > place else on + len(self.sides))]
        behind = [self.sides[each % len(self.sides)].length for each in range(on, place if place > on else place + len(self.sides))]
        right = x
        for length in ahead:
            right = right + length
        left = x
        for length in behind:
            left = left - length
        return right if right.value - ahead[0].value <= -left.value else left

    def in_plan(self, place: int, x: float, y: float) -> Point:
        """A place along one wall, the walls unrolled, and out of the wall that it comes to there, in plan."""
        on = place
        for _ in self.sides:
            if x > self.sides[on].length.value + _TOUCHES:
                x, on = x - self.sides[on].length.value, (on + 1) % len(self.sides)
            elif x < -_TOUCHES:
                on = (on - 1) % len(self.sides)
                x += self.sides[on].length.value
        return self.sides[on].in_plan(x, y)

    def turns(self, place: int) -> tuple[Fold, ...]:
        """The corners of the room along one wall unrolled, half way round to either side, from left to right."""
        count = len(self.sides)
        steps = range(count // 2 + 1)
        rights = accumulate(self.sides[(place + step) % count].length.value for step in steps)
        lefts = accumulate((self.sides[(place - step) % count].length.value for step in steps[1:]), initial=0.0)
        made = [Fold(x, self.sides[(place + step + 1) % count].angle) for step, x in enumerate(rights)]
        made += [Fold(-x, self.sides[(place - step) % count].angle) for step, x in enumerate(lefts)]
        return tuple(sorted(made, key=attrgetter("x")))

    def folds(self, place: int) -> tuple[float, ...]:
        """Where the corners of the room come along one wall unrolled."""
        return tuple(each.x for each in self.turns(place))


def closes(sides: Sequence[WallSide]) -> bool:
    """Whether the walls go round: they stand in one line where they make no room."""
    return sides[-1].end == sides[0].start


def rectangle(width: Figure, depth: Figure) -> Shape:
    """Four walls and four square corners."""
    w, d = width.value, depth.value
    corners = ((0.0, 0.0), (w, 0.0), (w, d), (0.0, d))
    lengths = (width, depth, width, depth)
    return Shape(
        tuple(
            WallSide(wall_letter(place), corners[place], corners[(place + 1) % 4], lengths[place], 90.0, 90.0 * place) for place in range(4)
        )
    )


def across(sides: Sequence[WallSide], line: WallSide, x: float, beyond: float = 0.0) -> float:
    """How far the room goes square out of a line at a place along it, to the first wall met beyond a distance; no further where none is."""
    found = math.inf
    for side in sides:
        (ax, ay), (bx, by) = line.on_wall(side.start), line.on_wall(side.end)
        if min(ax, bx) <= x <= max(ax, bx) and abs(ax - bx) > _TOUCHES:
            out = ay + (by - ay) * (x - ax) / (bx - ax)
            found = min(found, out) if out > beyond + _TOUCHES else found
    return found if math.isfinite(found) else beyond


def found_wall(survey: Survey, place: int) -> tuple[Wall, str]:
    """What one of the walls was found to be, and where that is put in; as wall A where it was not looked at."""
    if 0 < place <= len(survey.walls):
        return survey.walls[place - 1].wall, f"survey.walls.{place - 1}.wall"
    return survey.wall, "survey.wall"
