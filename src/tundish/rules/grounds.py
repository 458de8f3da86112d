"""What fixes into what: the fixing that suits the wall or the floor, as a role in the catalogue."""

from __future__ import annotations

from typing import Final

from tundish.layout.room import Room
from tundish.survey.floor import ON_JOISTS

_INTO_WALL: Final = {
    "timber stud": "wall screw timber",
    "lath and plaster": "wall screw timber",
    "metal stud": "wall fixing metal stud",
    "brick": "wall anchor brick",
    "block": "wall anchor block",
    "concrete": "wall anchor concrete",
}


def into_wall(room: Room) -> str:
    """The role of the fixing into the wall."""
    return _INTO_WALL[room.behind.construction]


def on_solid_wall(room: Room) -> bool:
    """Whether the wall takes an anchor anywhere; otherwise only its studs hold."""
    return into_wall(room).startswith("wall anchor")


def on_joists(room: Room) -> bool:
    """Whether the bare floor lies on joists."""
    return room.plan.survey.floor.kind in ON_JOISTS


def into_floor(room: Room) -> str:
    """The role of the fixing into the bare floor."""
    return "floor screw timber" if on_joists(room) else "floor anchor"


def into_floor_heavy(room: Room) -> str:
    """The role of the fixing into the bare floor of what is held by its feet alone."""
    return "floor screw timber heavy" if on_joists(room) else "floor anchor heavy"
