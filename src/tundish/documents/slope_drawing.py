"""Sloping ceilings, stair soffits and beams: over the floor in plan, and where they come down before a wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.documents.drawing import Box, Line, Mark, Shape, Words
from tundish.field import must_read, read
from tundish.layout.around import Under
from tundish.layout.clip import box, common
from tundish.layout.room import Room
from tundish.survey.shape import Slope


def above(slope: Slope, wall: float) -> Iterator[Mark]:
    """What it is over in plan, along a wall so long: dashed, with what it is and how high it is at the wall."""
    x, reach = must_read(slope, "from_left").value, must_read(slope, "reach").value
    wide = read(slope, "width")
    right = min(x + wide.value, wall) if wide is not None else wall
    if right > x and reach > 0:
        yield Box(x, -reach, right - x, reach, "hidden", filled=False)
        yield Words((x + right) / 2, -reach + _WORD_IN, _said(slope), 2.4, "hidden", most=right - x)


def at_wall(slope: Slope, wall: float) -> Iterator[Mark]:
    """How high it is at its wall, looking at that."""
    x, low, wide = must_read(slope, "from_left").value, must_read(slope, "at_wall").value, read(slope, "width")
    right = min(x + wide.value, wall) if wide is not None else wall
    if right > x:
        yield Line(x, low, right, low, "hidden")
        yield Words((x + right) / 2, low + _WORD_IN, _said(slope), 2.4, "hidden", most=right - x)


def before(room: Room, head: float) -> Iterator[Mark]:
    """Where they come down before the face of a pre-wall, as far as it is drawn."""
    face = room.figures["finished_face"].value
    for under in room.around.unders:
        over = common(box(0.0, room.width.value, face - 1, face + 1), under.shape)
        if over:
            ends = [(x, _at(under, x, face)) for x in (min(x for x, _ in over), max(x for x, _ in over))]
            yield from _down_to(under, _below(ends, head), head)


_WORD_IN = 60.0
"""How far its words stand from its edge."""


def _down_to(under: Under, ends: list[tuple[float, float]], head: float) -> Iterator[Mark]:
    if ends:
        (left, one), (right, other) = ends
        yield Shape(((left, one), (right, other), (right, head), (left, head)), "wall")
        yield Line(left, one, right, other, "ink")
        yield Words((left + right) / 2, min((one + other) / 2 + _WORD_IN, head), under.name, 2.4, "room", most=right - left)


def _below(ends: list[tuple[float, float]], head: float) -> list[tuple[float, float]]:
    """As much of the line as is below what is drawn; nothing where none is."""
    (left, one), (right, other) = ends
    if min(one, other) >= head or right - left < 1:
        return []
    if max(one, other) <= head:
        return ends
    cut = left + (right - left) * (head - one) / (other - one)
    return [(left, one), (cut, head)] if one < other else [(cut, head), (right, other)]


def _at(under: Under, x: float, y: float) -> float:
    return under.low + under.rise * ((x - under.origin[0]) * under.out[0] + (y - under.origin[1]) * under.out[1])


def _said(slope: Slope) -> str:
    return f"{slope.kind}, {measure.show_length(must_read(slope, 'at_wall').value)} at the wall"
