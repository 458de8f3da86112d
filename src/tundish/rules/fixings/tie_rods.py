"""What the tie rods are fixed to where they meet the wall itself."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.grounds import into_wall, on_solid_wall
from tundish.rules.rule import Need, rule


@rule("fixings/tie-rods", source="common practice; the anchor's own sheet says how deep and how far from edges")
def tie_rod_fixings(room: Room, book: Book) -> Iterator[Need]:
    """On a solid wall each tie rod has its own anchor."""
    if on_solid_wall(room):
        for one in room.tied:
            yield Need(one.frame.size("brackets"), "frames", f"tie rods of {one.name}", role=into_wall(room))
