"""The floor that a pre-wall and what hangs on it take, in plan."""

from __future__ import annotations

import math

from tundish.layout.clip import box
from tundish.layout.corner import Across, Against
from tundish.layout.room import Placed, Room
from tundish.layout.walls import Point


def of_prewall(room: Room) -> tuple[Point, ...]:
    """The pre-wall as tiled; across a corner the triangle behind its front. Where it is joined to another each ends at the mitre."""
    if room.corner is not None:
        return _across(room, room.corner)
    deep, left, right = room.figures["finished_face"].value, room.start.value, room.start.value + room.run.value
    if square_ended(room):
        return box(left, right, 0.0, deep)
    face, (left_back, right_back) = ends(room), _mitres(room, deep)
    return (face[0] - left_back, 0.0), (face[1] + right_back, 0.0), (face[1], deep), (face[0], deep)


def finished(room: Room) -> tuple[Point, ...]:
    """The pre-wall with all that covers it: beyond each free end the boards and tiles of the return there."""
    shape = of_prewall(room)
    if room.corner is not None or all(room.at_wall):
        return shape
    left, right = (0.0 if at_wall else room.thickness.value for at_wall in room.at_wall)
    (a, b, c, d), deep = shape, room.figures["finished_face"].value
    return (a[0] - left, 0.0), (b[0] + right, 0.0), (c[0] + right, deep), (d[0] - left, deep)


def square_ended(room: Room) -> bool:
    """Whether it stands along its wall with both ends square to that."""
    return room.corner is None and room.joins == (None, None) and stopped(room) == (None, None)


def stopped(room: Room) -> tuple[Against | None, Against | None]:
    """At its left and its right end, the higher front across the corner that a run stops against."""
    left, right = (met.against if met is not None and room.corner is None else None for met in room.meets)
    return left, right


def front(room: Room) -> tuple[float, float]:
    """The left and right end of its front as boarded, from the left end of its line: across a corner from wall to wall, or to a join.

    Where it stops against a higher front across the corner, as it is seen: at the face of its tiles.
    """
    if room.corner is None:
        left, right = room.start.value, room.start.value + room.run.value
        before, after = stopped(room)
        left = left if before is None else (before.along + before.face(room.thickness)).value
        return left, right if after is None else room.width.value - (after.along + after.face(room.thickness)).value
    left, right = (join.along.value if join is not None else 0.0 for join in room.joins)
    return left, room.width.value - right


def ends(room: Room) -> tuple[float, float]:
    """The same at the face of its tiles: to the mitre at a join, to the walls of a corner, else as boarded."""
    left, right = front(room)
    beyond = room.thickness.value * math.tan(math.radians(room.corner.half)) if room.corner is not None else 0.0
    less, more = (join.less(room.thickness).value if join is not None else -beyond for join in room.joins)
    return left + less, right - more


def of_ware(room: Room, one: Placed) -> tuple[Point, ...]:
    """An appliance before the pre-wall."""
    face, half = room.figures["finished_face"].value, one.ware.bare("width") / 2
    return box(one.centre.value - half, one.centre.value + half, face, face + one.ware.bare("projection"))


def _mitres(room: Room, deep: float) -> tuple[float, float]:
    """How much longer than at its face it is at the wall, on its left and on its right; below nought where it stops aslant."""
    backs = [math.tan(math.radians(join.mitre)) * deep if join is not None else 0.0 for join in room.joins]
    left, right = (
        back if each is None else -math.tan(math.radians(each.half)) * deep for back, each in zip(backs, stopped(room), strict=True)
    )
    return left, right


def _across(room: Room, corner: Across) -> tuple[Point, ...]:
    """Out of the corner along its right wall to the mitre or the tiles' end, along the face, and back along its left wall."""
    deep, middle, turn = room.figures["finished_face"].value, room.width.value / 2, math.radians(corner.half)
    wall = deep / math.cos(turn)
    backs, face = [], ends(room)
    for join, way in zip(room.joins, (-1, 1), strict=True):
        if join is not None:
            along = wall - join.off_wall(join.deep + room.thickness).value
            backs.append((middle + way * along * math.sin(turn), along * math.cos(turn)))
    left = tuple(backs[:1]) if room.joins[0] is not None else ()
    right = tuple(backs[-1:]) if room.joins[1] is not None else ()
    return ((middle, 0.0), *right, (face[1], deep), (face[0], deep), *left)
