"""Holes through a floor that carries, and keeps fire, sound and damp apart."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.grounds import on_joists
from tundish.rules.rule import Caution, rule
from tundish.rules.sleeving import FLOORS, drains_down, supplies_up


@rule(
    "safety/through-floor",
    figures=FLOORS,
    source="Approved Document A, holes in joists, and B, pipes through a floor that resists fire, from memory; common practice",
)
def through_floor(room: Room, book: Book) -> Iterator[Caution]:
    """Nobody cuts a joist, a heating pipe or the damp course of a floor for a pipe.

    Said wherever a pipe goes through a new hole in the floor. Building control says what a floor between dwellings wants;
    a chartered engineer what a joist or a slab bears.
    """
    found = [one.name for one in (*drains_down(room, book), *supplies_up(room, book))]
    if found:
        under = (
            "Find the joists and go down between them: none is notched or holed for soil or waste without a chartered engineer; for copper "
            "on the middle of its depth, no wider than a quarter of that, between a quarter and two fifths of its span."
            if on_joists(room)
            else "Find heating pipes, cables and steel in it before coring, and make the damp course good round the sleeve; a slab that "
            "carries is for a chartered engineer."
        )
        yield Caution(
            "Holes through the floor",
            f"{', '.join(found)}: {under} Through a floor between dwellings a plastic pipe wants a fire collar under the ceiling: "
            "building control decides.",
        )
