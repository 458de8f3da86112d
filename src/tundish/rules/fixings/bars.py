"""What support bars are fixed with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Need, rule


@rule("fixings/bars", source="common practice")
def bar_fixings(room: Room, book: Book) -> Iterator[Need]:
    """Each end of a support bar is held by a channel nut and bolt on steel, by two screws on studwork."""
    roles = ("channel nut", "channel bolt") if room.of_steel else ("wood screw 80",)
    count = 2 if room.of_steel else 4
    for one in room.placed:
        if not one.framed:
            for role in roles:
                yield Need(each(count, one.name), "frames", f"bar of {one.name}", role=role)
