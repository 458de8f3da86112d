"""What is laid on the floor after the frames stand."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.decisions import inputs, key_of
from tundish.rules.rule import Decision, rule


@rule("closing/build-up", source="common practice", whole=True)
def build_up_confirmed(room: Room, book: Book) -> Iterator[Decision]:
    """The floor build-up is confirmed by whoever lays it.

    Made once for a room where anything is laid on the bare floor.
    """
    layers = room.plan.survey.floor.build_up
    if layers:
        by = ", ".join(dict.fromkeys(layer.laid_by.strip() for layer in layers if layer.laid_by.strip()))
        yield Decision(
            key_of(room, "build-up"),
            "Floor build-up confirmed",
            "1 mm here is 1 mm on every height." + (f" Ask {by}." if by else ""),
            "By first fix",
            "Word of who lays it",
            f"build-up {show_length(room.finished_floor.value)} mm",
            inputs(room, *(f"survey.floor.build_up.{place}.thickness" for place in range(len(layers)))),
        )
