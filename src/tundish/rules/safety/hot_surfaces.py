"""What burns: hot pipe, hot water at a tap, flame."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.pipes import served
from tundish.rules.rule import Caution, rule


@rule(
    "safety/hot-surfaces",
    source="Approved Document G, G3, hot water at a bath and at outlets for those at risk, from memory; common practice",
)
def hot_surfaces(room: Room, book: Book) -> Iterator[Caution]:
    """Hot pipe, hot water at a tap and a flame burn.

    Said wherever hot water is laid behind the wall. What is mixed to which temperature is for building control and a plumber who is
    registered for it; in a home for care, for its own rules.
    """
    names = list(dict.fromkeys(served(room, run).name for run in room.pipes_of("hot")))
    if names:
        weak = " Who uses an accessible room may not feel how hot it is: ask what its rules allow." if room.of_kind("accessible wc") else ""
        yield Caution(
            "Hot surfaces and hot water",
            f"{', '.join(names)}: hot pipe burns until it is drained and cold. Water stored above 60 °C scalds at the tap: a mixing valve "
            f"keeps it lower, 48 °C at a bath.{weak} Solder away from cables, timber and plastic, with a mat behind and an extinguisher at "
            "hand. Building control and the makers say what is wanted.",
        )
