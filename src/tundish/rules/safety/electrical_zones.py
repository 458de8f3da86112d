"""Electrical work in a room with water."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule


@rule(
    "safety/electrical-zones",
    source="Building Regulations Part P and BS 7671, section 701, as quoted on electricians' pages",
    whole=True,
    prints=("programme",),
)
def electrical_zones(room: Room, book: Book) -> Iterator[Caution]:
    """Electrical work in a bathroom is for an electrician, and part of it has to be notified.

    Said wherever there is a pre-wall with something on it; what the survey saw of cables and fittings is repeated.
    """
    if room.plan.design.appliances:
        seen = room.plan.survey.existing.electrics.strip()
        yield Caution(
            "Electrical zones",
            f"{_seen(seen)}In a room with a bath or shower a new circuit, and any alteration within 0.6 m of it up to 2.25 m, has to be "
            "notified in England. Steel behind the wall may need bonding. A registered electrician decides, and does it.",
        )


def _seen(seen: str) -> str:
    return f"Seen: {seen.rstrip('.')}. " if seen else ""
