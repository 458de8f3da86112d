"""A pre-wall across a corner: its front is a chord between two walls, and the void behind it a triangle.

Seen from it, x runs along its frame front from its left end, y out of the corner square to the front, beginning at the corner itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tundish.figure import Figure, number
from tundish.layout.walls import WallSide
from tundish.survey.wall import Wall


@dataclass(frozen=True, slots=True)
class Across:
    """`half` the corner's angle, in degrees; `run` the length of the frame front, `depth` from the corner out to it.

    `before`: what the wall at its left was found to be, and where that is put in within the room.
    """

    half: float
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

    def reach(self, seat: Figure, aside: Figure) -> Figure:
        """How a turned bracket reaches: from its seat, so far out of the corner and aside of its middle, square to the wall."""
        turn = math.radians(self.half)
        back = (aside * number(round(1 / math.tan(turn), 6), "", "Wall falls back")).named("Wall beside the corner")
        return (seat - back) * number(round(math.sin(turn), 6), "", f"Square to a wall at {self.half:g}°")


@dataclass(frozen=True, slots=True)
class InCorner:
    """A pre-wall across the corner at one end of another's wall: how far from the corner its front meets that wall."""

    name: str
    setback: Figure
    half: float

    def clear(self, thickness: Figure) -> Figure:
        """How far from the corner another's frame may come along the wall: past the tiles of both, so thick."""
        slant = number(round(1 / math.cos(math.radians(self.half)), 6), "", "Aslant to the wall")
        tiles = (thickness * slant).named(f"Covering of {self.name}, along the wall")
        return (self.setback + tiles + thickness.named("Covering of its own end")).named(f"Clear of {self.name}")


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
    return Across(half, run, depth, before), WallSide(side.letter, start, end, run, 90.0, heading)
