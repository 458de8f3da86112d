"""What stands on the other pre-walls of a room, as it lies seen from one of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from tundish.layout.around import Around, Thing
from tundish.layout.footprints import of_prewall, of_ware
from tundish.layout.room import Room
from tundish.layout.walls import Point


def across_the_room(rooms: tuple[Room, ...]) -> tuple[Room, ...]:
    """The pre-walls of one room, each with the others and what hangs on them around it; as they are where there is one."""
    if len(rooms) == 1:
        return rooms
    return tuple(replace(each, around=Around((*each.around.things, *_seen(each, rooms)), each.around.unders)) for each in rooms)


def _seen(room: Room, rooms: Sequence[Room]) -> Iterator[Thing]:
    for other in rooms:
        if other is not room:
            wall = other.prewall.name.strip() or f"pre-wall at wall {other.wall}"
            yield Thing("prewall", wall, other.prewall_path, _from(room, other, of_prewall(other)), 0.0, other.top.value)
            for one in other.placed:
                yield Thing("ware", one.name, one.path, _from(room, other, of_ware(other, one)), 0.0, one.figures["top"].value)


def _from(room: Room, other: Room, shape: Sequence[Point]) -> tuple[Point, ...]:
    return tuple(room.line.on_wall(other.line.in_plan(*each)) for each in shape)
