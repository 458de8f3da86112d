"""The faces of the pre-wall: which there are, how much board and tile they take, and which ends are free."""

from __future__ import annotations

from tundish.figure import Figure, total
from tundish.layout.room import Face, Room
from tundish.rules.amounts import area


def face_of(room: Room, key: str) -> Face | None:
    """The face called "front" or "shelf"; None where there is none."""
    return next((one for one in room.faces if one.key == key), None)


def returns(room: Room) -> tuple[Face, ...]:
    """The sides of the pre-wall at its free ends."""
    return tuple(one for one in room.faces if one.key.startswith("return"))


def boarded_area(room: Room) -> Figure:
    """All faces as boarded, one layer, m²."""
    return total([area(one.width, one.height, one.name) for one in room.faces], "Boarded", "m²")


def tiled_area(room: Room) -> Figure:
    """All faces as tiled, m²."""
    return total([one.tiled_area for one in room.faces], "Tiled", "m²")
