"""Holes through a wall that keeps fire and sound apart, or holds the house up."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule
from tundish.rules.sleeving import drains_through, supplies_through


@rule("safety/through-walls", source="Approved Document B, pipes through a wall that resists fire, from memory; common practice")
def through_walls(room: Room, book: Book) -> Iterator[Caution]:
    """Nobody drills through a party wall, a fire wall or a lintel without leave.

    Said wherever a pipe goes through a wall, on the sheet of that wall. The owner, the neighbour of a party wall and building control say
    whether and how; where the wall carries, a chartered engineer.
    """
    found = [*drains_through(room), *supplies_through(room)]
    if found:
        party = " It is a party wall: the neighbour's leave, and building control's, come first." if any(one.party for one in found) else ""
        yield Caution(
            "Holes through the wall",
            f"{', '.join(one.name for one in found)}: look for cables, pipes, lintels and damp courses before coring, and keep joints out "
            f"of the wall.{party} Through a wall that resists fire a plastic pipe wants a fire collar: building control decides. Where the "
            "wall carries, ask a chartered engineer.",
        )
