"""What hot and cold come through a wall or the floor in."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Cut, Finding, Need, rule
from tundish.rules.sleeving import FIGURES, FLOORS, Through, sleeved, supplies_through, supplies_up


@rule(
    "water/sleeves",
    figures=(*FIGURES, *FLOORS, "water.stub"),
    source="Water Fittings Regulations 1999, schedule 2, and common practice: pipe through a wall lies in a sleeve, from memory",
)
def water_sleeves(room: Room, book: Book) -> Iterator[Need | Finding]:
    """Hot and cold that come through the wall or the floor lie in a sleeve, sealed at both ends.

    Through the wall where the survey says so, through the floor where they are led under it. The piece through the wall is as long as the
    wall is thick, with a stub at both ends, and turns up the wall with an elbow; through the floor the piece that goes up passes.
    """
    for one in supplies_through(room):
        length = _piece(one, book)
        why = f"{one.name}, through the wall"
        yield Need(
            length, "first fix", why, role=f"{one.pipe} {one.size}", cuts=(Cut(f"{one.mark}P", length, one.name, "through the wall"),)
        )
        yield Need(each(1, one.name), "first fix", why, role=f"elbow {one.size}")
        yield from sleeved(one, book)
    for one in supplies_up(room, book):
        yield from sleeved(one, book)


def _piece(one: Through, book: Book) -> Figure:
    stub = book.figure("water.stub")
    return (one.thick + stub + stub).named(f"Through the wall, {one.name}")
