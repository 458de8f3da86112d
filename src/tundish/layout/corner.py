"""A pre-wall across a corner: its front is a chord between two walls, and the void behind it a triangle.

Seen from it, x runs along its frame front from its left end, y out of the corner square to the front, beginning at the corner itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from tundish.figure import Figure, number
from tundish.layout.walls import WallSide
from tundish.survey.wall import Wall

_TOUCHES: Final = 0.5


@dataclass(frozen=True, slots=True)
class Across:
    """`half` the corner's angle, in degrees; `setback` along each wall; `run` the length of the frame front, `depth` out to it.

    `before`: what the wall at its left was found to be, and where that is put in within the room.
    """

    half: float
    setback: Figure
    run: Figure
    depth: Figure
    before: tuple[Wall, str]

    def behind(self, x: float) -> float:
        """How far out of the corner the wall is behind a place along the front."""
        return abs(x - self.run.value / 2) / math.tan(math.radians(self.half))

    def along(self, seat: Figure, aside: Figure) -> Figure:
        """How far from the corner a turned bracket meets its wall."""
        turn = math.radians(self.half)
        out = (seat * number(round(math.cos(turn), 6), "", "Along the wall")).named("Bracket seat, along the wall")
        return out + (aside * number(round(math.sin(turn), 6), "", "Along the wall")).named("Bracket aside, along the wall")

    def place(self, along: Figure, out: Figure, *, left: bool) -> tuple[Figure, Figure]:
        """Along the front and out of the corner: a place on its left or right wall, so far from the corner and out of that wall."""
        turn = math.radians(self.half)
        sine, cosine = (number(round(each, 6), "", f"At {self.half:g}° to the middle") for each in (math.sin(turn), math.cos(turn)))
        aside = (along * sine - out * cosine).named("Beside the middle of the front")
        middle = (self.run / 2).named("Middle of the front")
        return (middle - aside if left else middle + aside), along * cosine + out * sine

    def holds(self, x: float, y: float) -> bool:
        """Whether a place, along the front and out of the corner, lies between the walls and the front."""
        return self.behind(x) - _TOUCHES <= y < self.depth.value

    def off_wall(self, x: Figure, out: Figure) -> Figure:
        """How far out of the corner something is that lies so far off the wall behind a place along the front."""
        turn, middle = math.radians(self.half), (self.run / 2).named("Middle of the front")
        aside = x - middle if x.value >= middle.value else middle - x
        back = (aside * number(round(1 / math.tan(turn), 6), "", "Wall falls back")).named("Wall beside the corner")
        return back + self.square(out)

    def square(self, out: Figure) -> Figure:
        """How far out of the corner, behind the middle of the front, something is that lies so far off a wall."""
        return out * number(round(1 / math.sin(math.radians(self.half)), 6), "", f"Square to a wall at {self.half:g}°")

    def off_walls(self, out: Figure) -> Figure:
        """How far off both walls something is that lies so far out of the corner, behind the middle of the front."""
        return out * number(round(math.sin(math.radians(self.half)), 6), "", f"Square to a wall at {self.half:g}°")

    def reach(self, seat: Figure, aside: Figure) -> Figure:
        """How a turned bracket reaches: from its seat, so far out of the corner and aside of its middle, square to the wall."""
        turn = math.radians(self.half)
        back = (aside * number(round(1 / math.tan(turn), 6), "", "Wall falls back")).named("Wall beside the corner")
        return (seat - back) * number(round(math.sin(turn), 6), "", f"Square to a wall at {self.half:g}°")


@dataclass(frozen=True, slots=True)
class InCorner:
    """A pre-wall across the corner at one end of another's wall: how far from the corner its front meets that wall.

    `at`: where that is put in.
    """

    name: str
    setback: Figure
    half: float
    at: str

    def clear(self, thickness: Figure) -> Figure:
        """How far from the corner another's frame may come along the wall: past the tiles of both, so thick."""
        return (self.covered(thickness) + thickness.named("Covering of its own end")).named(f"Clear of {self.name}")

    def covered(self, thickness: Figure) -> Figure:
        """How far from the corner its tiles meet the wall, its covering so thick."""
        return (self.setback + aslant(thickness, self.half).named(f"Covering of {self.name}, along the wall")).named(
            f"Tiles of {self.name}"
        )


def aslant(thickness: Figure, half: float) -> Figure:
    """What is so thick square to a front across a corner, measured along a wall."""
    return thickness * number(round(1 / math.cos(math.radians(half)), 6), "", "Aslant to the wall")


def across_corner(side: WallSide, setback: Figure, before: tuple[Wall, str]) -> tuple[Across, WallSide]:
    """The pre-wall across the left-hand corner of a wall, and its frame front as a line in plan of its own."""
    half = side.angle / 2
    turn = math.radians(half)
    run = (setback * number(round(2 * math.sin(turn), 6), "", f"Chord of a corner of {side.angle:g}°")).named("Length of run")
    depth = (setback * number(round(math.cos(turn), 6), "", f"Half of a corner of {side.angle:g}°")).named("Corner to frame front")
    # The front looks along the line that halves the corner: from this wall's heading half a corner back, less a right angle.
    heading = side.heading + half - 90.0
    way = math.radians(heading)
    start = (side.start[0] - math.cos(way) * run.value / 2, side.start[1] - math.sin(way) * run.value / 2)
    end = (side.start[0] + math.cos(way) * run.value / 2, side.start[1] + math.sin(way) * run.value / 2)
    return Across(half, setback, run, depth, before), WallSide(side.letter, start, end, run, 90.0, heading)
