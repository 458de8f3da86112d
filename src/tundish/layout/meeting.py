"""Pre-walls that meet in a corner: which of them goes into it, and where the other starts or ends.

The higher one goes into the corner, of equal ones the first; the other stands against its frame front. A run along a wall that reaches
one across the corner is joined to it: their fronts go on into one another. A lower one stops against it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.figure import Figure, number
from tundish.layout.corner import Across, Against, Bar, InCorner, Join, fronts_meet, joined, joined_across
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
            joins=(_join(each, standings, inputs, left=True), _join(each, standings, inputs, left=False)),
        )
        for each in standings
    )


@dataclass(frozen=True, slots=True)
class Corner:
    """What a corner does to a run at its frame front: how far from the wall's end it starts, and whether it meets anything there."""

    offset: Figure
    closed: bool


def corner_of(standing: Standing, depth: Figure, inset: Figure, *, left: bool) -> Corner:
    """The corner at one end of a pre-wall, whose rails lie so deep (`inset`); outside corners leave its end free."""
    angle = standing.side.angle if left else standing.shape.sides[(standing.wall_place + 1) % len(standing.shape.sides)].angle
    met = standing.meets[0 if left else 1]
    join = standing.joins[0 if left else 1]
    if standing.corner is not None:
        return Corner(number(0, label="Corner"), closed=True)
    if join is not None:
        return Corner(join.along, closed=True)
    if met is not None and met.against is not None:
        return Corner((met.against.along + met.against.shorter(inset)).named(f"Steel clear of {met.name}"), closed=True)
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
    found = _across(one, others, left=left)
    if one.corner is not None:
        return _before(one, others, inputs, left=left)
    if found is not None:
        against = _against(one, found, inputs, left=left)
        return None if against is None else Meets(found.name, inputs.sure(one.prewall, "depth", one.at), False, False, None, against)
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


def _before(one: Standing, others: Sequence[Standing], inputs: Inputs, *, left: bool) -> Meets | None:
    """A lower run that stops against the front across a corner at one end of it."""
    wall = (one.wall_place - 1) % len(one.shape.sides) if left else one.wall_place
    for other in others:
        against = None if other.corner is not None or other.wall_place != wall else _against(other, one, inputs, left=not left)
        if against is not None and one.corner is not None:
            deep, top = (inputs.sure(other.prewall, name, other.at) for name in ("depth", "top"))
            seen = replace(against, name=other.name, along=against.across(deep), top=top, steel=other.prewall.built_of != "timber")
            return Meets(other.name, deep, through=True, level=False, hides=top, against=seen)
    return None


def _against(run: Standing, across: Standing, inputs: Inputs, *, left: bool) -> Against | None:
    """How a run along a wall stops against what stands higher across the corner there; None where it stops short of it, or cannot."""
    corner, prewall = across.corner, across.prewall
    if corner is None or _height(run, inputs) >= _height(across, inputs) or _too_deep(run, corner, inputs):
        return None
    along = fronts_meet(across.name, corner, inputs.sure(run.prewall, "depth", run.at))
    if not _reaches(run, left=left, beyond=along.value):
        return None
    top = None if prewall.height == "full" else inputs.sure(prewall, "top", across.at)
    return Against(across.name, along, corner.half, top, prewall.built_of != "timber")


def _in_corner(one: Standing, others: Sequence[Standing], inputs: Inputs, *, left: bool) -> InCorner | None:
    """Another pre-wall that stands across the corner at one end of its wall; of one that itself does, at the other end of it."""
    if one.corner is not None and left:
        return None
    found = _across(one, others, left=left)
    if found is None or found.corner is None:
        return None
    bar = "" if one.corner is not None else _bar(one, found, found.corner, inputs)
    top = inputs.sure(found.prewall, "top", found.at) if bar == "tops" else None
    return InCorner(found.name, found.corner.setback, found.corner.half, f"{inputs.path}.{found.at}", bar, top)


def _across(one: Standing, others: Sequence[Standing], *, left: bool) -> Standing | None:
    """The pre-wall that stands across the corner at one end of another's wall."""
    at = one.wall_place if left else (one.wall_place + 1) % len(one.shape.sides)
    return next((other for other in others if other is not one and other.wall_place == at and other.corner is not None), None)


def _join(one: Standing, others: Sequence[Standing], inputs: Inputs, *, left: bool) -> Join | None:
    """Where the front of a pre-wall goes on into that of another at one end, as it is seen from there."""
    if one.corner is None:
        found = _across(one, others, left=left)
        return None if found is None else _joined(one, found, inputs, left=left)
    wall = (one.wall_place - 1) % len(one.shape.sides) if left else one.wall_place
    for other in others:
        if other.corner is None and other.wall_place == wall and _joined(other, one, inputs, left=not left) is not None:
            return joined_across(other.name, f"{inputs.path}.{other.at}", one.corner, inputs.sure(other.prewall, "depth", other.at))
    return None


def _joined(run: Standing, across: Standing, inputs: Inputs, *, left: bool) -> Join | None:
    """A run along a wall joined at one end to what stands across the corner there; None where it stops short of it, or cannot be."""
    if across.corner is None or _bar(run, across, across.corner, inputs):
        return None
    join = joined(across.name, f"{inputs.path}.{across.at}", across.corner, inputs.sure(run.prewall, "depth", run.at))
    return join if _reaches(run, left=left, beyond=join.along.value) else None


def _bar(run: Standing, across: Standing, corner: Across, inputs: Inputs) -> Bar:
    """What keeps the two fronts from going on into one another."""
    if _too_deep(run, corner, inputs):
        return "deep"
    if run.prewall.height != across.prewall.height:
        return "heights"
    if run.prewall.height != "full" and run.prewall.shelf != across.prewall.shelf:
        return "shelves"
    return "tops" if _height(run, inputs) != _height(across, inputs) else ""


def _too_deep(run: Standing, corner: Across, inputs: Inputs) -> bool:
    """Whether a run covers the front across the corner to its middle."""
    deep = inputs.sure(run.prewall, "depth", run.at).value
    return deep / math.cos(math.radians(corner.half)) >= corner.run.value / 2 - _TOUCHES


def _reaches(standing: Standing, *, left: bool, beyond: float = 0.0) -> bool:
    """Whether a pre-wall goes to that end of its wall, or to so far from it, as it is put in."""
    prewall = standing.prewall
    start = prewall.from_left.value if prewall.from_left else 0.0
    if left:
        return start <= beyond + _TOUCHES
    return prewall.run is None or start + prewall.run.value >= standing.side.length.value - beyond - _TOUCHES


def _height(standing: Standing, inputs: Inputs) -> float:
    prewall = standing.prewall
    return math.inf if prewall.height == "full" else inputs.sure(prewall, "top", standing.at).value
