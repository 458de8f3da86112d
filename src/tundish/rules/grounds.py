"""What fixes into what: the fixing that suits the wall or the floor, as a role in the catalogue."""

from __future__ import annotations

from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.survey.floor import ON_JOISTS
from tundish.survey.wall import Wall

_INTO_WALL: Final = {
    "timber stud": "wall screw timber",
    "lath and plaster": "wall screw timber",
    "metal stud": "wall fixing metal stud",
    "brick": "wall anchor brick",
    "block": "wall anchor block",
    "concrete": "wall anchor concrete",
}


def into(wall: Wall) -> str:
    """The role of the fixing into a wall."""
    return _INTO_WALL[wall.construction]


def walls_of(room: Room) -> tuple[tuple[Wall, str], ...]:
    """What the pre-wall is fixed to and where that is put in: its wall, or both of its corner, the left-hand one first, each once."""
    walls = ((room.behind, room.behind_path),)
    if room.corner is None:
        return walls
    before, at = room.corner.before
    return walls if f"{room.path}.{at}" == room.behind_path else ((before, f"{room.path}.{at}"), *walls)


def into_wall(room: Room, x: float | None = None) -> str:
    """The role of the fixing into the wall; across a corner, into the wall that is behind a place along the pre-wall."""
    return into(wall_at(room, x))


def wall_at(room: Room, x: float | None = None) -> Wall:
    """The wall that is behind a place along the pre-wall: across a corner, one or the other."""
    if room.corner is not None and x is not None and x < room.width.value / 2:
        return room.corner.before[0]
    return room.behind


def on_solid_wall(room: Room, x: float | None = None) -> bool:
    """Whether the wall takes an anchor anywhere; otherwise only its studs hold."""
    return into_wall(room, x).startswith("wall anchor")


def on_timber_studs(room: Room, x: float | None = None) -> bool:
    """Whether the wall has timber studs that screws go into."""
    return into_wall(room, x) == "wall screw timber"


def lining(room: Room, book: Book, x: float | None = None) -> Figure:
    """How thick what lies on the studs of the wall is."""
    return book.figure("fixings.lath" if wall_at(room, x).construction == "lath and plaster" else "fixings.lining")


def on_joists(room: Room) -> bool:
    """Whether the bare floor lies on joists."""
    return room.plan.survey.floor.kind in ON_JOISTS


def into_floor(room: Room) -> str:
    """The role of the fixing into the bare floor."""
    return "floor screw timber" if on_joists(room) else "floor anchor"


def into_floor_heavy(room: Room) -> str:
    """The role of the fixing into the bare floor of what is held by its feet alone."""
    return "floor screw timber heavy" if on_joists(room) else "floor anchor heavy"
