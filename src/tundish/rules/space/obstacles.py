"""Whether something that stays is where the pre-wall or an appliance is to be."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.clip import common
from tundish.layout.footprints import finished, of_ware
from tundish.layout.room import Room
from tundish.rules.rule import Finding, rule


@rule("space/obstacles", source="geometry of the room as measured")
def obstacles(room: Room, book: Book) -> Iterator[Finding]:
    """Nothing that stays is inside the pre-wall or where an appliance hangs.

    What is taken out before the pre-wall is built is not reckoned with.
    """
    for one in room.around.of("obstacle"):
        if common(one.shape, finished(room)) and one.bottom < room.top.value:
            message = f"The {one.name} stays and is inside the pre-wall: move it, take it out, or stop the pre-wall short of it."
            yield Finding(f"{one.name} in the pre-wall", "Clearances", "fails", None, "Own rule", "measured", message=message)
        for each in room.placed:
            if common(one.shape, of_ware(room, each)) and one.bottom < each.figures["top"].value:
                message = f"The {one.name} stays and is where {each.name} hangs: move one of them."
                yield Finding(
                    f"{one.name} in the way", "Clearances", "fails", None, "Own rule", "measured", message=message, place=each.name
                )
