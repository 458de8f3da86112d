"""Whether a door opens against an appliance."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.clip import common
from tundish.layout.footprints import of_prewall, of_ware
from tundish.layout.room import Room
from tundish.rules.rule import Finding, rule


@rule("space/door-swing", source="common practice")
def door_swing(room: Room, book: Book) -> Iterator[Finding]:
    """No door swings against an appliance or the pre-wall.

    The quarter circle of its leaf, for a door that opens into the room.
    """
    for door in room.around.of("swing"):
        met = [each.name for each in room.placed if common(door.shape, of_ware(room, each)) and each.figures["top"].value > door.bottom]
        met += ["the pre-wall"] if common(door.shape, of_prewall(room)) else []
        if met:
            message = f"It meets {', '.join(met)}: hang it on its other side, let it open outwards, or move what it meets."
            yield Finding(f"Swing of the {door.name}", "Clearances", "look", None, "Guidance", "common practice", message=message)
