"""Whether what is to hang does hang."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.decisions import key_of, names
from tundish.rules.rule import Decision, rule


@rule("closing/trial-fit", source="common practice")
def trial_fitted(room: Room, book: Book) -> Iterator[Decision]:
    """Everything is hung once, dry, before the wall is closed.

    Made wherever something hangs on the wall.
    """
    if room.placed:
        yield Decision(
            key_of(room, "trial-fit"),
            "Trial fit done",
            f"{names(room.placed)} hung dry, levels read.",
            "By boarding",
            "Photo, level on the rim",
            ", ".join(f"{one.ware.name} at {show_length(one.centre.value)}" for one in room.placed),
            (f"{room.prewall_path}.depth", f"{room.prewall_path}.from_left", *(f"{one.path}.centre" for one in room.placed)),
        )
