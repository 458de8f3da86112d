"""What else is in the room, as it lies seen from one pre-wall: openings and the swing of doors, obstacles, slopes, electrics.

Shapes are in the pre-wall's own x and y, heights from the bare floor.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from tundish.figure import Figure
from tundish.layout.clip import box, common
from tundish.layout.inputs import Inputs
from tundish.layout.standing import Standing
from tundish.layout.walls import Point, WallSide
from tundish.survey.shape import Obstacle
from tundish.survey.survey import Survey
from tundish.survey.wall import Opening


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that takes space: `shape` in plan from `bottom` to `top`. `what`: door, window, swing, obstacle, electric.

    Of a swing, `hinge` is the side it is hung on, and `turned` its shape hung on the other. Of another pre-wall, `face` is how far out of
    its wall its tiles are.
    """

    what: str
    name: str
    path: str
    shape: tuple[Point, ...]
    bottom: float
    top: float
    hinge: str = ""
    turned: tuple[Point, ...] = ()
    face: Figure | None = None

    @property
    def called(self) -> str:
        """Its name within a sentence."""
        return f"the {self.name}" if self.what == "obstacle" else self.name


@dataclass(frozen=True, slots=True)
class Under:
    """A ceiling that comes down: over `shape` it is at `low` along the wall it belongs to and rises by `rise` a millimetre out of it."""

    name: str
    path: str
    shape: tuple[Point, ...]
    low: float
    rise: float
    origin: Point
    out: Point

    def lowest_over(self, shape: Sequence[Point]) -> float | None:
        """The lowest that it comes over a shape; None where it is not over it."""
        over = common(shape, self.shape)
        heights = [self.low + self.rise * ((x - self.origin[0]) * self.out[0] + (y - self.origin[1]) * self.out[1]) for x, y in over]
        return min(heights, default=None)


@dataclass(frozen=True, slots=True)
class Around:
    """All of it."""

    things: tuple[Thing, ...] = ()
    unders: tuple[Under, ...] = ()

    def of(self, *what: str) -> tuple[Thing, ...]:
        """The things of these kinds."""
        return tuple(each for each in self.things if each.what in what)


def around_of(survey: Survey, standing: Standing, height: float, inputs: Inputs) -> Around:
    """What the survey holds, seen from a pre-wall."""
    things = (*_openings(survey, standing, inputs), *_obstacles(survey, standing, inputs), *_electrics(survey, standing, inputs))
    return Around(things, tuple(_unders(survey, standing, height, inputs)))


_SWING_STEPS: Final = 24
_FLAT: Final = 10.0
"""How far into the room an opening or a fitting is taken to reach."""


def _openings(survey: Survey, standing: Standing, inputs: Inputs) -> Iterator[Thing]:
    for place, each in enumerate(survey.openings):
        where = f"survey.openings.{place}"
        left, width, height, sill = (inputs.sure(each, name, where).value for name in ("from_left", "width", "height", "sill"))
        side = standing.wall_named(each.wall)
        if side is None:
            continue
        path = f"{inputs.path}.{where}"
        name = f"{each.kind} in wall {side.letter}"
        yield Thing(each.kind, name, path, _seen(standing, side, box(left, left + width, 0, _FLAT)), sill, sill + height)
        if each.kind == "door" and each.swing == "into the room" and width > 0:
            leaf, turned = (_seen(standing, side, _swing(hinge, left, width)) for hinge in _hinges(each))
            yield Thing("swing", name, path, leaf, sill, sill + height, each.hinge, turned)


def _hinges(door: Opening) -> tuple[str, str]:
    """The side that a door is hung on, then the other."""
    return ("left", "right") if door.hinge == "left" else ("right", "left")


def _swing(side: str, left: float, width: float) -> tuple[Point, ...]:
    """The quarter of a circle that the leaf sweeps, hung on a side."""
    hinge, way = (left, 1.0) if side == "left" else (left + width, -1.0)
    turns = [math.pi / 2 * step / _SWING_STEPS for step in range(_SWING_STEPS + 1)]
    return (hinge, 0.0), *((hinge + way * width * math.cos(turn), width * math.sin(turn)) for turn in turns)


def _obstacles(survey: Survey, standing: Standing, inputs: Inputs) -> Iterator[Thing]:
    for place, each in enumerate(survey.obstacles):
        side = standing.wall_named(each.wall)
        if not each.stays or side is None:
            continue
        where = f"survey.obstacles.{place}"
        names = ("from_left", "from_wall", "width", "depth", "bottom", "height")
        left, near, width, depth, bottom, height = (inputs.sure(each, name, where).value for name in names)
        shape = _seen(standing, side, box(left, left + width, near, near + depth))
        yield Thing("obstacle", _called(each), f"{inputs.path}.{where}", shape, bottom, bottom + height)


def _electrics(survey: Survey, standing: Standing, inputs: Inputs) -> Iterator[Thing]:
    for place, each in enumerate(survey.electrics):
        side = standing.wall_named(each.wall)
        if each.stays and side is not None:
            where = f"survey.electrics.{place}"
            left, height = inputs.sure(each, "from_left", where).value, inputs.sure(each, "height", where).value
            shape = _seen(standing, side, box(left - _FLAT, left + _FLAT, 0, _FLAT))
            yield Thing("electric", each.what, f"{inputs.path}.{where}", shape, height, height)


def _unders(survey: Survey, standing: Standing, height: float, inputs: Inputs) -> Iterator[Under]:
    for place, each in enumerate(survey.slopes):
        where = f"survey.slopes.{place}"
        left, low, reach = (inputs.sure(each, name, where).value for name in ("from_left", "at_wall", "reach"))
        side = standing.wall_named(each.wall)
        if side is None:
            continue
        width = inputs.number(each, "width", where)
        right = left + width.value if width is not None else side.length.value
        if right <= left or reach <= 0:
            continue
        rise = 0.0 if each.kind == "beam" else max(height - low, 0.0) / reach
        shape = _seen(standing, side, box(left, right, 0, reach))
        origin, ahead = _seen(standing, side, ((0.0, 0.0), (0.0, 1.0)))
        out = ahead[0] - origin[0], ahead[1] - origin[1]
        yield Under(f"{each.kind} at wall {side.letter}", f"{inputs.path}.{where}", shape, low, rise, origin, out)


def _seen(standing: Standing, side: WallSide, shape: Sequence[Point]) -> tuple[Point, ...]:
    """A shape along one wall in the x and y of the pre-wall's wall."""
    if side is standing.side:
        return tuple(shape)
    return tuple(standing.side.on_wall(side.in_plan(*each)) for each in shape)


def _called(each: Obstacle) -> str:
    return each.name.strip() or each.what
