"""Ways out that several checks offer."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.layout.around import Thing
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.rule import WayOut


def set_depth(room: Room, to: float) -> WayOut:
    """The pre-wall at another depth, mm."""
    words = f"Set the pre-wall {show_length(to)} deep: shelf, returns, ties and tie rods change with it."
    return WayOut(words, f"{room.prewall_path}.depth", to)


def set_centre(one: Placed, to: float) -> WayOut:
    """An appliance elsewhere along the wall, mm."""
    words = f"Move the centre of {one.name} to {show_length(to)}: its pipes and the uprights beside it move with it."
    return WayOut(words, f"{one.path}.centre", to)


def hung_otherwise(door: Thing, *, clear: bool) -> Iterator[WayOut]:
    """A door hinged on its other side, where its leaf is `clear` there; outwards, which meets nothing in the room."""
    if clear:
        other = "right" if door.hinge == "left" else "left"
        words = f"Hang the {door.name} on its {other}: its leaf is clear there, and its light switch may want moving."
        yield WayOut(words, f"{door.path}.hinge", other)
    words = f"Let the {door.name} open out of the room: see that nothing is in its way there."
    yield WayOut(words, f"{door.path}.swing", "out of the room")
