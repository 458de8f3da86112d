"""Whether soil and waste are tight."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.decisions import key_of, names
from tundish.rules.pipes import served
from tundish.rules.rule import Decision, Proof, rule


@rule(
    "closing/soil-test",
    figures=("drainage.air_test", "drainage.air_loss", "drainage.air_minutes"),
    source="Approved Document H, 1.38: 38 mm water gauge for 3 minutes, as taught in a drainage lesson",
)
def soil_tested(room: Room, book: Book) -> Iterator[Decision]:
    """Soil and waste are tested before they are covered.

    With air, 38 mm on the gauge for three minutes; never with smoke on plastics.
    """
    runs = room.pipes_of("soil", "waste")
    if runs:
        yield Decision(
            key_of(room, "soil-test"),
            "Soil and waste tested",
            "Joints are behind the board.",
            "By boarding",
            "Start mm, end mm, minutes",
            names(served(room, run) for run in runs),
            proof=Proof(book.figure("drainage.air_test"), book.figure("drainage.air_loss"), book.figure("drainage.air_minutes")),
        )
