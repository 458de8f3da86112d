"""The faces of the pre-wall: which there are, how much board and tile they take, and which ends are free."""

from __future__ import annotations

from math import cos, radians

from tundish.figure import Figure, largest, number, total
from tundish.layout.corner import Join
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


def shelf_edge(room: Room, shelf: Face) -> Figure:
    """How long the front edge of a shelf is, as boarded: at the wall it is longer where it is mitred to another."""
    if room.corner is not None:
        return front_of(room).width
    edge = shelf.width
    for join in room.joins:
        edge = (edge - join.longer(room.depth)).named(edge.label) if join is not None else edge
    return edge


def mitre_of(deep: Figure, join: Join) -> Figure:
    """How long the mitre of something so deep is, from its front to the wall."""
    return (deep * number(round(1 / cos(radians(join.mitre)), 6), "", f"Aslant, {join.mitre:g}°")).named(f"Mitre with {join.name}")


def boarded_area(room: Room) -> Figure:
    """All faces as boarded, less the openings in the front, one layer, m²."""
    whole = total([one.area or area(one.width, one.height, one.name) for one in room.faces], "Boarded")
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
