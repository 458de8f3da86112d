"""Whether the pre-wall stands across a door or a window."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.clip import common
from tundish.layout.footprints import finished
from tundish.layout.room import Room
from tundish.rules.rule import Finding, rule


@rule("space/openings", source="geometry of the room as measured")
def openings(room: Room, book: Book) -> Iterator[Finding]:
    """No pre-wall stands across a door or a window.

    A window whose sill is above the top of the pre-wall is clear of it.
    """
    for one in room.around.of("door", "window"):
        if common(one.shape, finished(room)) and one.bottom < room.top.value and one.top > 0:
            message = f"The pre-wall stands across the {one.name}: stop it short, start it beyond, or end it beneath the sill."
            yield Finding(f"Across the {one.name}", "Clearances", "fails", None, "Own rule", "measured", message=message)
