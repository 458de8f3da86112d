"""What the tie rods are fixed to where they meet the wall itself."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.grounds import into_wall, on_solid_wall
from tundish.rules.rule import Need, rule


@rule("fixings/tie-rods", source="common practice; the anchor's own sheet says how deep and how far from edges")
def tie_rod_fixings(room: Room, book: Book) -> Iterator[Need]:
    """On a solid wall each tie rod has its own anchor.

    Across a corner that is asked of each of its two walls.
    """
    for one in room.tied:
        brackets = one.frame.size("brackets")
        places = [one.figures[f"bracket_{side}"].value for side in ("left", "right")]
        held = [into_wall(room, x) for x in places if on_solid_wall(room, x)]
        for role in dict.fromkeys(held):
            amount = brackets if held == [role] * 2 else (brackets / 2).named(f"Tie rods of {one.name} on the solid wall")
            yield Need(amount, "frames", f"tie rods of {one.name}", role=role)
