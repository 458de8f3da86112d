"""A pre-wall across a corner: its front is a chord between two walls, and the void behind it a triangle.

Seen from it, x runs along its frame front from its left end, y out of the corner square to the front, beginning at the corner itself.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

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

    def square_behind(self, x: float, y: float) -> tuple[float, float]:
        """The place on the wall that is square behind a place, both along the front and out of the corner."""
        turn, aside = math.radians(self.half), x - self.run.value / 2
        along = abs(aside) * math.sin(turn) + y * math.cos(turn)
        return self.run.value / 2 + math.copysign(along * math.sin(turn), aside), along * math.cos(turn)

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


Bar = Literal["", "heights", "tops", "shelves", "deep"]
"""What keeps two pre-walls from being joined: part and full height, their tops, a shelf on one alone, one too deep for the other."""


@dataclass(frozen=True, slots=True)
class InCorner:
    """A pre-wall across the corner at one end of another's wall: how far from the corner its front meets that wall.

    `at`: where it is put in; `bar`: what keeps the other from being joined to it; `top`: its top, where the other's is not.
    """

    name: str
    setback: Figure
    half: float
    at: str
    bar: Bar = ""
    top: Figure | None = None

    def clear(self, thickness: Figure) -> Figure:
        """How far from the corner another's frame may come along the wall: past the tiles of both, so thick."""
        return (self.covered(thickness) + thickness.named("Covering of its own end")).named(f"Clear of {self.name}")

    def covered(self, thickness: Figure) -> Figure:
        """How far from the corner its tiles meet the wall, its covering so thick."""
        return (self.setback + aslant(thickness, self.half).named(f"Covering of {self.name}, along the wall")).named(
            f"Tiles of {self.name}"
        )


@dataclass(frozen=True, slots=True)
class Join:
    """Where the front of a run along a wall and that of a pre-wall across its corner meet, and go on into one another.

    `along`: how far from the end of its own line the frame fronts meet; `turn`: how far the one turns from the other, in degrees.
    `deep`: how far the frame front of the run is off its wall; `half` of the corner's angle; `at`: where the other is put in.
    """

    name: str
    at: str
    along: Figure
    turn: float
    deep: Figure
    half: float

    @property
    def angle(self) -> float:
        """The corner that the two fronts make, as it is seen from the room, degrees."""
        return 180.0 - self.turn

    @property
    def mitre(self) -> float:
        """How far off square everything is cut that is mitred there, degrees."""
        return self.turn / 2

    @property
    def cut(self) -> str:
        """That in words."""
        return f"{round(self.mitre, 1):g}°"

    def less(self, thickness: Figure) -> Figure:
        """How much shorter a face so thick is there than the frame front behind it: both are cut to the mitre."""
        return (thickness * self._mitred).named(f"Mitre with {self.name}")

    def longer(self, deep: Figure) -> Figure:
        """How much longer what lies so deep from front to wall is at its back than at its front: cut to the mitre."""
        return (deep * self._mitred).named(f"Mitre with {self.name}")

    def off_wall(self, deep: Figure) -> Figure:
        """How much of the wall, from the ends of the front across the corner, belongs to the run: up to the mitre, so deep."""
        both = math.tan(math.radians(self.half)) + math.tan(math.radians(self.mitre))
        return (deep * number(round(both, 6), "", f"At {self.half:g}° and {self.mitre:g}°")).named(f"Beyond the mitre with {self.name}")

    @property
    def _mitred(self) -> Figure:
        return number(round(math.tan(math.radians(self.mitre)), 6), "", f"Mitred at {self.mitre:g}°")


@dataclass(frozen=True, slots=True)
class Against:
    """Where a run along a wall stops against the front of a higher pre-wall across the corner there.

    `along`: how far from the end of its own line the frame fronts meet; `half` of the corner's angle; `top` of the higher one above the
    finished floor, None at the ceiling; `steel`: whether that is of strut.
    """

    name: str
    along: Figure
    half: float
    top: Figure | None
    steel: bool

    @property
    def angle(self) -> float:
        """The corner that the two fronts make, as it is seen from the room, degrees."""
        return 90.0 + self.half

    @property
    def cut(self) -> str:
        """How far off square everything is cut that stops there, in words."""
        return f"{round(self.half, 1):g}°"

    def shorter(self, deep: Figure) -> Figure:
        """How much shorter what lies so deep from front to wall is at its back than at its front."""
        return (deep * number(round(math.tan(math.radians(self.half)), 6), "", f"At {self.half:g}°")).named(f"Cut to {self.name}")

    def face(self, thickness: Figure) -> Figure:
        """How far past where the frame fronts meet two coverings so thick meet at their faces."""
        turn = math.radians(self.half)
        share = number(round((1 - math.sin(turn)) / math.cos(turn), 6), "", f"Faces meet, at {self.half:g}°")
        return (thickness * share).named(f"To the face of {self.name}")

    def back(self, thickness: Figure) -> Figure:
        """The same where what is so thick on the higher one comes to the frame front of the run."""
        return aslant(thickness, self.half).named(f"To the face of {self.name}")

    def across(self, deep: Figure) -> Figure:
        """How long on the front across the corner something is that stands so deep off the wall."""
        return aslant(deep, self.half).named(f"Along the front, {self.name}")


def fronts_meet(name: str, corner: Across, deep: Figure) -> Figure:
    """How far from the corner of the walls the frame front of a run so deep meets that of a pre-wall across it."""
    falls = number(round(math.tan(math.radians(corner.half)), 6), "", f"Front at {90 - corner.half:g}° to the wall")
    return (corner.setback - (deep * falls).named("Front comes forward")).named(f"Frame fronts meet, {name}")


def joined(name: str, at: str, corner: Across, deep: Figure) -> Join:
    """The join as it is seen from a run along the wall, its frame front so far off it: `along` is from the corner of the walls."""
    return Join(name, at, fronts_meet(name, corner, deep), 90.0 - corner.half, deep, corner.half)


def joined_across(name: str, at: str, corner: Across, deep: Figure) -> Join:
    """The same join as it is seen from the pre-wall across the corner: `along` is from that end of its front."""
    slope = number(round(1 / math.cos(math.radians(corner.half)), 6), "", "Aslant to the wall")
    return Join(name, at, (deep * slope).named(f"Frame fronts meet, {name}"), 90.0 - corner.half, deep, corner.half)


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
