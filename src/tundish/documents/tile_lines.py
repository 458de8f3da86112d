"""Where the joints between the tiles come on the front of a pre-wall as it is set out, and the cut tiles at its ends."""

from __future__ import annotations

from tundish.layout.room import Room
from tundish.layout.tiled_room import FRONT, left_of, tiled
from tundish.layout.tiles import SetOut


def columns(room: Room) -> tuple[float, ...]:
    """The middles of the upright joints of every course, from the left wall."""
    return tuple(sorted({x for x, _, _ in uprights(room)}))


def uprights(room: Room) -> tuple[tuple[float, float, float], ...]:
    """Every upright joint: its middle from the left wall, and from what height to what it runs above the bare floor."""
    front = _front(room)
    if front is None or not front.rows:
        return ()
    half, left, foot = front.tiling.joint / 2, left_of(room), room.finished_floor.value
    runs = [(row.number % 2, row.at, row.at + row.size) for row in front.rows]
    if not front.tiling.shift:
        runs = [(0, runs[0][1], runs[-1][2])]
    return tuple(
        (left + column.at - half, foot + low, foot + high) for odd, low, high in runs for column in front.columns[odd] if column.at > half
    )


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
