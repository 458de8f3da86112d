"""Pipes and the stack as they are seen: on the wall of one pre-wall, above it in plan, and in the plan of the whole room."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import pairwise
from typing import Final

from tundish.documents.drawing import Ellipse, Line, Mark, Shape, Style
from tundish.field import must_read
from tundish.layout.across_the_room import in_plan
from tundish.layout.room import PipeRun, Room
from tundish.layout.walls import Point

PIPES: Final[dict[str, Style]] = {"soil": "soil", "waste": "soil", "hot": "hot", "cold": "cold"}
Place = tuple[float, float, float]
BEYOND: Final = 40.0
"""How far a pipe is drawn that leaves the void across a corner."""
_TOUCHES: Final = 0.5


def stack_here(room: Room) -> bool:
    """Whether the stack stands at the wall of this pre-wall; across a corner, behind its front. Not at a wall that the room has not."""
    if room.side_of(room.plan.survey.stack.wall) is None:
        return False
    x, y = room.figures["stack"].value, room.figures["stack_from_wall"].value
    return at_wall(room, x) and (room.corner is None or room.corner.holds(x, y))


def at_wall(room: Room, x: float) -> bool:
    """Whether a place along the wall, the walls unrolled, is on this wall itself and not round a corner."""
    return 0 <= x <= room.width.value


def on_wall(room: Room, pipe: PipeRun) -> Iterator[tuple[Place, Place]]:
    """The straight pieces of a run that are on this wall, the way the water goes; what is round a corner is left out."""
    over = BEYOND if room.corner is not None else 0.0
    low, high = -over, room.width.value + over
    for one, other in pairwise(pipe.route):
        if _round_corner(room, one, other) or max(one[0], other[0]) < low or min(one[0], other[0]) > high:
            continue
        yield _held(one, other, low, high), _held(other, one, low, high)


def front(room: Room, pipe: PipeRun, foot: float) -> Iterator[Mark]:
    """A run as it is seen looking at the wall, down to the foot of what is drawn: supplies as lines, discharges as thick as they are."""
    style, half = PIPES[pipe.kind], pipe.size / 2
    for (x1, _, high), (x2, _, low) in on_wall(room, pipe):
        z1, z2 = max(high, foot), max(low, foot)
        if abs(x2 - x1) < _TOUCHES and abs(z2 - z1) < _TOUCHES:
            continue
        if pipe.kind in {"hot", "cold"}:
            yield Line(x1, z1, x2, z2, style, piece=pipe.key)
        elif abs(x2 - x1) >= abs(z2 - z1):
            yield Shape(((x1, z1 - half), (x2, z2 - half), (x2, z2 + half), (x1, z1 + half)), style, piece=pipe.key)
        else:
            yield Shape(((x1 - half, z1), (x2 - half, z2), (x2 + half, z2), (x1 + half, z1)), style, piece=pipe.key)


def above(room: Room) -> Iterator[Mark]:
    """Discharges from above as far as they are on this wall, and the stack where it stands at it; y runs down the page."""
    for pipe in room.pipes_of("soil", "waste"):
        yield from _laid(pipe, (((x1, y1), (x2, y2)) for (x1, y1, _), (x2, y2, _) in on_wall(room, _lying(pipe))), pipe.key)
        if _goes_down(pipe) and at_wall(room, pipe.route[-1][0]):
            yield _hole(pipe.route[-1][:2], pipe, pipe.key)
    if stack_here(room):
        yield from _stack((room.figures["stack"].value, room.figures["stack_from_wall"].value))


def in_room(room: Room, lead: str) -> Iterator[Mark]:
    """The discharges of one pre-wall in the plan of the whole room, round every corner; `lead` goes before their ids."""
    for pipe in room.pipes_of("soil", "waste"):
        places = [in_plan(room, x, y) for x, y, _ in _lying(pipe).route]
        yield from _laid(pipe, pairwise(places), f"{lead}{pipe.key}")
        if _goes_down(pipe):
            yield _hole(places[-1], pipe, f"{lead}{pipe.key}")


def stack_in_room(room: Room) -> Iterator[Mark]:
    """The stack in the plan of the whole room, where it was measured; not where its wall is none of the room's."""
    stack = room.plan.survey.stack
    side = room.side_of(stack.wall)
    if side is not None:
        out = must_read(stack, "from_wall").value
        yield from _stack(side.in_plan(must_read(stack, "from_left").value, -out if stack.behind else out))


def _round_corner(room: Room, one: Place, other: Place) -> bool:
    """Whether two places are the same one of a corner, reckoned along one wall and along the next."""
    apart = abs(one[0] - other[0])
    return room.corner is None and apart > _TOUCHES and any(abs((one[0] + other[0]) / 2 - fold) < _TOUCHES for fold in room.folds)


def _held(one: Place, other: Place, low: float, high: float) -> Place:
    """The first of two places, moved towards the other until it is on the wall."""
    x = min(max(one[0], low), high)
    if x == one[0]:
        return one
    share = (x - one[0]) / (other[0] - one[0])
    return x, one[1] + (other[1] - one[1]) * share, one[2] + (other[2] - one[2]) * share


def _lying(pipe: PipeRun) -> PipeRun:
    """The run without its outlet out of the front of the frame."""
    return replace(pipe, route=pipe.route[1:])


def _laid(pipe: PipeRun, legs: Iterable[tuple[Point, Point]], piece: str) -> Iterator[Mark]:
    """Straight pieces as thick as the pipe is, of plan places."""
    for (x1, y1), (x2, y2) in legs:
        long = math.hypot(x2 - x1, y2 - y1)
        if long >= _TOUCHES:
            across = (-(y2 - y1) / long * pipe.size / 2, (x2 - x1) / long * pipe.size / 2)
            corners = [
                (x + way * across[0], -(y + way * across[1])) for x, y, way in ((x1, y1, 1), (x2, y2, 1), (x2, y2, -1), (x1, y1, -1))
            ]
            yield Shape(tuple(corners), "soil", piece)


def _goes_down(pipe: PipeRun) -> bool:
    """Whether a discharge ends straight down through the floor."""
    return pipe.drop is not None and pipe.route[-1][2] < 0


def _hole(place: Point, pipe: PipeRun, piece: str) -> Mark:
    """Where a pipe goes through the floor, seen from above."""
    return Ellipse(place[0], -place[1], pipe.outside / 2, pipe.outside / 2, "soil", piece)


def _stack(place: Point) -> Iterator[Mark]:
    x, y = place
    yield Ellipse(x, -y, 55, 55, "soil", "stack")
    yield Ellipse(x, -y, 48, 48, "ware", "stack")
