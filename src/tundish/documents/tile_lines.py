"""Where the joints between the tiles come on the front of a pre-wall, and the cut tiles at its ends."""

from __future__ import annotations

from tundish.layout.room import Room


def columns(room: Room) -> tuple[float, ...]:
    """The upright joints from the left wall: an equal cut tile at either end."""
    left, right, step = room.start.value, room.start.value + room.run.value, _step(room, "width")
    first = left + (room.run.value % step) / 2
    across = (first + place * step for place in range(int(room.run.value / step) + 1))
    return tuple(x for x in across if left < x < right)


def courses(room: Room) -> tuple[float, ...]:
    """The level joints from the bare floor, top down: set out from the top, so that the full tile is the one in sight."""
    bottom, top, step = room.finished_floor.value, room.top.value, _step(room, "height")
    levels = (top - place * step for place in range(1, int((top - bottom) / step) + 1))
    return tuple(z for z in levels if z > bottom)


def end_tiles(room: Room) -> tuple[float, float]:
    """The widths of the tiles at the left and at the right end of the front."""
    lines = columns(room)
    left, right = room.start.value, room.start.value + room.run.value
    return (lines[0] - left, right - lines[-1]) if lines else (room.run.value, room.run.value)


def _step(room: Room, size: str) -> float:
    return room.tile.size(size).value + room.figures["joint"].value
