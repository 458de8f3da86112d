"""The floor that a pre-wall and what hangs on it take, in plan."""

from __future__ import annotations

from tundish.layout.clip import box
from tundish.layout.room import Placed, Room
from tundish.layout.walls import Point


def of_prewall(room: Room) -> tuple[Point, ...]:
    """The pre-wall as tiled; across a corner the triangle behind its front."""
    if room.corner is not None:
        return (room.width.value / 2, 0.0), (room.width.value, room.depth.value), (0.0, room.depth.value)
    return box(room.start.value, room.start.value + room.run.value, 0.0, room.figures["finished_face"].value)


def of_ware(room: Room, one: Placed) -> tuple[Point, ...]:
    """An appliance before the pre-wall."""
    face, half = room.figures["finished_face"].value, one.ware.size("width").value / 2
    return box(one.centre.value - half, one.centre.value + half, face, face + one.ware.size("projection").value)
