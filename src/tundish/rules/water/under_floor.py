"""Whether hot and cold can be led under the floor."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import IN_VOID, UNDER_FLOOR
from tundish.layout.room import Placed, Room
from tundish.rules.grounds import on_joists
from tundish.rules.rule import Finding, WayOut, rule


@rule("water/under-floor", source="common practice: no pipe lies in a slab or screed that nobody can open")
def under_floor(room: Room, book: Book) -> Iterator[Finding]:
    """Hot and cold are led under boards that can be lifted, and not under a slab."""
    for one in room.placed:
        if one.choice.feeds == UNDER_FLOOR and {"hot", "cold"} & set(KINDS[one.kind].ends):
            yield _judged(room, one)


_SOLID = "The floor is solid: nobody gets at a pipe in it. Lead hot and cold in the void, or box them along the wall."


def _judged(room: Room, one: Placed) -> Finding:
    title, by = "Feeds under the floor", "common practice"
    if on_joists(room):
        return Finding(title, "Water", "passes", None, "Own rule", by, place=one.name)
    return Finding(title, "Water", "fails", None, "Own rule", by, message=_SOLID, place=one.name, ways_out=(_back(one.name, one.path),))


def _back(name: str, path: str) -> WayOut:
    return WayOut(f"Lead hot and cold of {name} in the void: they pass its uprights and the legs of frames.", f"{path}.feeds", IN_VOID)
