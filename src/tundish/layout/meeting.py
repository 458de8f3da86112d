"""Pre-walls that meet in a corner: which of them goes into it, and where the other starts or ends.

The higher one goes into the corner, of equal ones the first; the other stands against its frame front.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.figure import Figure, number
from tundish.layout.corner import InCorner
from tundish.layout.inputs import Inputs
from tundish.layout.standing import Meets, Standing

_TOUCHES: Final = 1.0
_STRAIGHT: Final = 180.0
_SQUARE: Final = 90.0


def meeting(standings: Sequence[Standing], inputs: Inputs) -> tuple[Standing, ...]:
    """The same pre-walls, each told what it meets in the corners at its ends."""
    return tuple(
        replace(
            each,
            meets=(_met(each, standings, inputs, left=True), _met(each, standings, inputs, left=False)),
            in_corners=(_in_corner(each, standings, inputs, left=True), _in_corner(each, standings, inputs, left=False)),
        )
        for each in standings
    )


@dataclass(frozen=True, slots=True)
class Corner:
    """What a corner does to a run at its frame front: how far from the wall's end it starts, and whether it meets anything there."""

    offset: Figure
    closed: bool


def corner_of(standing: Standing, depth: Figure, *, left: bool) -> Corner:
    """The corner at one end of a pre-wall; outside corners leave its end free."""
    angle = standing.side.angle if left else standing.shape.sides[(standing.wall_place + 1) % len(standing.shape.sides)].angle
    met = standing.meets[0 if left else 1]
    if standing.corner is not None:
        return Corner(number(0, label="Corner"), closed=True)
    if angle >= _STRAIGHT:
        return Corner(number(0, label="Outside corner"), closed=False)
    other = met.depth if met is not None and not met.through else None
    if abs(angle - _SQUARE) < 0.01:  # noqa: PLR2004
        return Corner(
            other.named(f"Frame front of {met.name}") if other is not None and met is not None else number(0, label="Corner"), closed=True
        )
    turn = math.radians(angle)
    along = depth * (math.cos(turn) / math.sin(turn))
    if other is not None:
        along = along + other * (1 / math.sin(turn))
    return Corner(along.named(f"Corner of {angle:g}°, at the frame front"), closed=True)


def _met(one: Standing, others: Sequence[Standing], inputs: Inputs, *, left: bool) -> Meets | None:
    if one.corner is not None:
        return None
    count = len(one.shape.sides)
    neighbour = (one.wall_place + (-1 if left else 1)) % count
    for other in others:
        if other.wall_place == neighbour and other.corner is None and _reaches(one, left=left) and _reaches(other, left=not left):
            mine, theirs = _height(one, inputs), _height(other, inputs)
            through = (mine, -one.place) > (theirs, -other.place)
            depth = inputs.sure(other.prewall, "depth", other.at)
            hides = inputs.sure(other.prewall, "top", other.at) if mine > theirs else None
            return Meets(other.name, depth, through=through, level=mine == theirs, hides=hides)
    return None


def _in_corner(one: Standing, others: Sequence[Standing], inputs: Inputs, *, left: bool) -> InCorner | None:
    """Another pre-wall that stands across the corner at one end of its wall; of one that itself does, at the other end of it."""
    if one.corner is not None and left:
        return None
    at = one.wall_place if left else (one.wall_place + 1) % len(one.shape.sides)
    found = next((other for other in others if other is not one and other.wall_place == at and other.corner is not None), None)
    if found is None or found.corner is None:
        return None
    return InCorner(found.name, found.corner.setback, found.corner.half, f"{inputs.path}.{found.at}.setback")


def _reaches(standing: Standing, *, left: bool) -> bool:
    """Whether a pre-wall goes to that end of its wall, as it is put in."""
    prewall = standing.prewall
    start = prewall.from_left.value if prewall.from_left else 0.0
    if left:
        return start <= _TOUCHES
    return prewall.run is None or start + prewall.run.value >= standing.side.length.value - _TOUCHES


def _height(standing: Standing, inputs: Inputs) -> float:
    prewall = standing.prewall
    return math.inf if prewall.height == "full" else inputs.sure(prewall, "top", standing.at).value
