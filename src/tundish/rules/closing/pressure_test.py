"""Whether hot and cold hold."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.decisions import inputs, key_of, names
from tundish.rules.pipes import served
from tundish.rules.rule import Decision, rule


@rule(
    "closing/pressure-test", source="Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraph 12: 1.5 times working pressure"
)
def pressure_tested(room: Room, book: Book) -> Iterator[Decision]:
    """Hot and cold are tested under pressure before they are covered.

    The law asks for one and a half times the greatest working pressure; plastics have a test of their own.
    """
    fed = [f"{kind} to {names(served(room, run) for run in runs)}" for kind in ("hot", "cold") if (runs := room.pipes_of(kind))]
    if fed:
        yield Decision(
            key_of(room, "pressure-test"),
            "Hot and cold pressure tested",
            "Last chance to see a weep.",
            "By boarding",
            "Start bar, end bar, minutes",
            "; ".join(fed),
            inputs(room, "survey.water.pressure", "survey.water.hot_from_left", "survey.water.cold_from_left"),
        )
