"""Whether hot and cold hold."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import must_read
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.measure import show_number
from tundish.rules.decisions import inputs, key_of, names
from tundish.rules.pipes import served
from tundish.rules.rule import Decision, Proof, rule


@rule(
    "closing/pressure-test",
    figures=("water.test_times", "water.test_loss", "water.test_minutes"),
    source="Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraph 12(1) and (2)(a)",
)
def pressure_tested(room: Room, book: Book) -> Iterator[Decision]:
    """Hot and cold are tested under pressure before they are covered.

    The law asks for one and a half times the greatest working pressure, held for an hour without pumping: so pipes without plastics;
    plastics have a test of their own. The standing pressure that was measured counts as the working pressure.
    """
    fed = [f"{kind} to {names(served(room, run) for run in runs)}" for kind in ("hot", "cold") if (runs := room.pipes_of(kind))]
    if fed:
        working = must_read(room.plan.survey.water, "pressure", f"{room.path}.survey.water.pressure")
        proof = Proof(_least(working, book), book.figure("water.test_loss"), book.figure("water.test_minutes"))
        yield Decision(
            key_of(room, "pressure-test"),
            "Hot and cold pressure tested",
            f"Last chance to see a weep: {_shown(proof.least)} for {_shown(proof.minutes)}.",
            "By boarding",
            "Start bar, end bar, minutes",
            f"{'; '.join(fed)}, at {_shown(working)}",
            inputs(room, "survey.water.pressure", "survey.water.hot_from_left", "survey.water.cold_from_left"),
            proof=proof,
        )


def _least(working: Figure, book: Book) -> Figure:
    times = book.figure("water.test_times")
    return (working * times).named("Pressure to test at", f"{times.value:g} times the standing pressure")


def _shown(figure: Figure) -> str:
    return f"{show_number(figure.value, None)} {figure.unit}"
