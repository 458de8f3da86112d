"""How feeds come through the wall to taps."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.pipes import served
from tundish.rules.rule import Need, rule


@rule("water/plates", source="common practice")
def wall_plates(room: Room, book: Book) -> Iterator[Need]:
    """Basins and bidets are fed through wall plate elbows.

    The elbow is fixed to the frame at first fix; at second fix a flexible connector, with one end that screws into it, joins it to the
    tap. WCs and urinals are joined
    inside the wall.
    """
    for run in room.pipes_of("hot", "cold"):
        one = served(room, run)
        if one.kind in ("basin", "bidet"):
            why = f"{run.kind} to {one.name}"
            yield Need(each(1, why.capitalize()), "first fix", why, role=f"wall plate elbow {run.size}")
            yield Need(each(1, why.capitalize()), "second fix", why, role="flexible connector to tap")
