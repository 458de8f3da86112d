"""How a shower valve and a wall spout are joined to their pipes, and a valve to its head."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Cut, Need, rule


@rule("water/in-wall", source="common practice")
def in_wall(room: Room, book: Book) -> Iterator[Need]:
    """A shower valve or wall spout has a threaded adaptor on each supply; a valve has a riser to a wall plate elbow at its head."""
    risers = 0
    for one in room.placed:
        if one.framed:
            continue
        riser = one.figures.get("riser")
        yield Need(each(2 if riser is None else 3, one.name), "first fix", f"onto {one.name}", role="male adaptor 15")
        if riser is not None and riser.value > 0:
            risers += 1
            cut = Cut(f"{room.mark}V{risers}", riser, "riser", f"{one.name} to its head")
            yield Need(riser, "first fix", f"riser of {one.name}", role="copper 15", cuts=(cut,))
            yield Need(each(1, one.name), "first fix", f"head of {one.name}", role="wall plate elbow 15")
