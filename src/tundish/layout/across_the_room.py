"""What stands on the other pre-walls of a room, and which of their pipes come behind it, as it lies seen from one of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from tundish.layout.around import Around, Thing
from tundish.layout.clear import box_of
from tundish.layout.footprints import finished, of_ware
from tundish.layout.room import PipeRun, Placed, Room
from tundish.layout.walls import Point, Shape


def across_the_room(rooms: tuple[Room, ...]) -> tuple[Room, ...]:
    """The pre-walls of one room, each with the others and what hangs on them around it; as they are where there is one."""
    if len(rooms) == 1:
        return rooms
    return tuple(
        replace(each, around=Around((*each.around.things, *_seen(each, rooms)), each.around.unders), passing=tuple(_passing(each, rooms)))
        for each in rooms
    )


def in_plan(room: Room, x: float, y: float) -> Point:
    """A place of a pipe of a pre-wall in plan, round whatever corners it went."""
    if room.corner is not None:
        return room.line.in_plan(x, y)
    letters = [side.letter for side in room.sides]
    return Shape(room.sides).in_plan(letters.index(room.wall), x, y)


def _seen(room: Room, rooms: Sequence[Room]) -> Iterator[Thing]:
    for other in rooms:
        if other is not room:
            wall = other.prewall.name.strip() or f"pre-wall at wall {other.wall}"
            face, shape = other.figures["finished_face"], _from(room, other, finished(other))
            yield Thing("prewall", wall, other.prewall_path, shape, 0.0, other.top.value, face=face)
            for one in other.placed:
                yield Thing("ware", one.name, one.path, _from(room, other, of_ware(other, one)), 0.0, one.figures["top"].value)


def _from(room: Room, other: Room, shape: Sequence[Point]) -> tuple[Point, ...]:
    return tuple(room.line.on_wall(other.line.in_plan(*each)) for each in shape)


def _passing(room: Room, rooms: Sequence[Room]) -> Iterator[tuple[PipeRun, Placed]]:
    """The pipes of the others that come where this one stands, round whatever they serve."""
    left, right = room.start.value - _NEAR, room.start.value + room.run.value + _NEAR
    for other in rooms:
        for run in other.pipes if other is not room else ():
            places = ((*room.line.on_wall(in_plan(other, x, y)), z) for x, y, z in run.route)
            seen = replace(run, route=tuple((round(x, 3), round(y, 3), z) for x, y, z in places))
            (x1, y1, _), (x2, y2, _) = box_of(seen.route)
            if x1 < right and left < x2 and y1 < room.depth.value and y2 > -_NEAR:
                yield seen, next(one for one in other.placed if one.key == run.serves)


_NEAR: Final = 100.0
