"""Whether a door opens against an appliance, the pre-wall, or something that stays."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tundish.catalogue.book import Book
from tundish.layout.around import Thing
from tundish.layout.clip import common
from tundish.layout.footprints import finished, of_ware
from tundish.layout.room import Room
from tundish.layout.walls import Point
from tundish.rules.rule import Finding, rule
from tundish.rules.ways import hung_otherwise


@rule("space/door-swing", source="common practice")
def door_swing(room: Room, book: Book) -> Iterator[Finding]:
    """No door swings against an appliance, the pre-wall, or a bath, tray or radiator that stays.

    The quarter circle of its leaf, for a door that opens into the room. What hangs above the leaf or lies wholly beneath it is passed.
    """
    for door in room.around.of("swing"):
        met = _met(room, door, door.shape)
        if met:
            message = f"It meets {', '.join(met)}: hang it on its other side, let it open outwards, or move what it meets."
            yield Finding(
                f"Swing of the {door.name}",
                "Clearances",
                "look",
                None,
                "Guidance",
                "common practice",
                message=message,
                ways_out=tuple(hung_otherwise(door, clear=not _met(room, door, door.turned))),
            )


def _met(room: Room, door: Thing, shape: Sequence[Point]) -> list[str]:
    """What a leaf that sweeps this shape meets; what stays in the room is told at its first pre-wall."""
    met = [each.name for each in room.placed if common(shape, of_ware(room, each)) and each.figures["top"].value > door.bottom]
    met += ["the pre-wall"] if common(shape, finished(room)) else []
    stays = room.around.of("obstacle") if room.first else ()
    return met + [f"the {each.name}" for each in stays if each.bottom < door.top and each.top > door.bottom and common(shape, each.shape)]
