"""How much floor is clear before an appliance."""

from __future__ import annotations

from tundish.figure import Figure, number
from tundish.layout.room import Placed, Room
from tundish.layout.walls import across


def clear_before(room: Room, one: Placed) -> Figure:
    """From its front edge to the wall opposite."""
    return (_deep(room, one) - room.figures["finished_face"] - one.ware.size("projection")).named(f"Clear floor before {one.name}")


def _deep(room: Room, one: Placed) -> Figure:
    """How deep the room is at an appliance: in a room of more corners, the least across its width."""
    if room.box and room.corner is None:
        return room.figures["room_depth"]
    half = one.ware.size("width").value / 2
    places = (one.centre.value - half, one.centre.value, one.centre.value + half)
    beyond = room.depth.value if room.corner else 0.0
    return number(round(min(across(room.sides, room.line, x, beyond) for x in places), 1), label=f"Wall to wall before {one.name}")
