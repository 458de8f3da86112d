"""What the cistern is worked and reached through."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.decisions import inputs, key_of
from tundish.rules.rule import Decision, rule


@rule("closing/flush-plate", source="common practice; maker's sheet of the flush plate")
def flush_plate_chosen(room: Room, book: Book) -> Iterator[Decision]:
    """The flush plate is chosen, and its opening reaches the cistern through board and tile.

    Made for every concealed cistern.
    """
    for one in room.of_kind("wc"):
        plate = book.items.get(one.choice.plate)
        yield Decision(
            key_of(room, "flush-plate", one.key),
            f"Flush plate chosen, {one.name}",
            "Opening and reach depend on it.",
            "By first fix",
            "Model, reach",
            f"{plate.name if plate else 'no plate'}, board and tile {show_length(room.thickness.value)} mm",
            inputs(room, "design.finish.layers"),
        )
