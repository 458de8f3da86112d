"""What keeps threads clean, and lets supplies be tested, until second fix."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.pipes import served
from tundish.rules.rule import Need, rule


@rule("water/plugs", source="common practice; a test under pressure wants every end shut: Water Fittings Regulations 1999, schedule 2")
def water_plugs(room: Room, book: Book) -> Iterator[Need]:
    """Every wall plate elbow is plugged until second fix.

    The plugs shut the supplies for the pressure test, and keep adhesive and grout out of the threads.
    """
    for run in room.pipes_of("hot", "cold"):
        one = served(room, run)
        if one.kind in {"basin", "bidet"}:
            yield Need(each(1, one.name), "first fix", f"end of {run.kind}, {one.name}", role="blanking plug")
    for one in room.placed:
        if "riser" in one.figures and one.figures["riser"].value > 0:
            yield Need(each(1, one.name), "first fix", f"end at the head, {one.name}", role="blanking plug")
