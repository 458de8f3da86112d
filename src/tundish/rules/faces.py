"""The faces of the pre-wall: which there are, how much board and tile they take, and which ends are free."""

from __future__ import annotations

from tundish.figure import Figure, largest, number, total
from tundish.layout.recesses import Recess
from tundish.layout.room import Face, Room
from tundish.rules.amounts import area


def front_of(room: Room) -> Face:
    """The front, which every pre-wall has."""
    return next(one for one in room.faces if one.key == "front")


def shelf_of(room: Room) -> Face | None:
    """The shelf on a pre-wall of part height; None where it goes to the ceiling."""
    return next((one for one in room.faces if one.key == "shelf"), None)


def returns(room: Room) -> tuple[Face, ...]:
    """The sides of the pre-wall at its free ends."""
    return tuple(one for one in room.faces if one.key.startswith("return"))


def boarded_area(room: Room) -> Figure:
    """All faces as boarded, less the openings in the front, one layer, m²."""
    whole = total([_boarded(room, one) for one in room.faces], "Boarded")
    if not room.recesses:
        return whole
    less = (whole - total([area(one.open_width, one.open_height, one.name) for one in room.recesses], "Openings")).named("Boarded")
    return less if less.low >= 0 else largest(less, number(0, "m²", "None"), label="Boarded")


def tiled_area(room: Room) -> Figure:
    """All faces as tiled, m²."""
    return total([one.tiled_area for one in room.faces], "Tiled")


def niches(room: Room) -> tuple[Recess, ...]:
    """The niches in the front."""
    return tuple(one for one in room.recesses if one.kind == "niche")


def _boarded(room: Room, face: Face) -> Figure:
    """A face as boarded, m²; the shelf across a corner is a triangle."""
    whole = area(face.width, face.height, face.name)
    return (whole / 2).named(face.name) if room.corner is not None and face.key == "shelf" else whole
