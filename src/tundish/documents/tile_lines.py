"""Where the joints between the tiles come on the front of a pre-wall as it is set out, and the cut tiles at its ends."""

from __future__ import annotations

from tundish.layout.room import Room
from tundish.layout.tiled_room import FRONT, left_of, tiled
from tundish.layout.tiles import SetOut


def columns(room: Room) -> tuple[float, ...]:
    """The middles of the upright joints, from the left wall."""
    front = _front(room)
    if front is None:
        return ()
    half, left = front.tiling.joint / 2, left_of(room)
    return tuple(left + column.at - half for column in front.columns[0] if column.at > half)


def courses(room: Room) -> tuple[float, ...]:
    """The middles of the level joints from the bare floor, top down."""
    front = _front(room)
    if front is None:
        return ()
    half, foot = front.tiling.joint / 2, room.finished_floor.value
    return tuple(foot + row.at - half for row in reversed(front.rows) if row.at > half)


def end_tiles(room: Room) -> tuple[float, float]:
    """The widths of the tiles at the left and at the right end of the front."""
    front = _front(room)
    return front.ends if front else (room.run.value, room.run.value)


def _front(room: Room) -> SetOut | None:
    laid = tiled(room)
    return next((face for face in laid.faces if face.face.name == FRONT), None) if laid else None
