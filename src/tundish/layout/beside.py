"""What of a pre-wall across a corner lies on the wall of a run that is joined to it: its wall struts."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from tundish.layout.corner import Across
from tundish.layout.room import Room, StrutBeside


def beside_joins(rooms: Sequence[Room]) -> tuple[Room, ...]:
    """The same pre-walls, each run told which struts lie on its wall of those across a corner that it is joined to."""
    return tuple(replace(room, beside=found) if (found := tuple(_beside(room, rooms))) else room for room in rooms)


def _beside(room: Room, rooms: Sequence[Room]) -> Iterator[StrutBeside]:
    for join, left in zip(room.joins, (True, False), strict=True):
        if join is None or room.corner is not None:
            continue
        for other in rooms:
            if other.corner is not None and other.prewall_path == join.at:
                yield from _struts(room, other, other.corner, left=left)


def _struts(room: Room, other: Room, corner: Across, *, left: bool) -> Iterator[StrutBeside]:
    """Those on the wall that runs from the corner, seen from its left end, or on that which runs up to it."""
    for strut in other.members:
        if strut.what != "wall strut" or (strut.turn > 0) != left:
            continue
        out, long = strut.y / math.cos(math.radians(corner.half)), strut.length.value
        near = out if left else room.width.value - out
        yield StrutBeside(strut.mark, other.name, near, near + long, strut.z)
