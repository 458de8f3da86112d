"""What keeps hot pipes hot, cold ones from sweating, and both quiet."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import in_all
from tundish.rules.pipes import out_of_wall, served
from tundish.rules.rule import Need, rule


@rule(
    "water/insulation",
    source="common practice; cold water is not to be warmed: Water Fittings Regulations 1999, schedule 2, paragraph 9",
)
def insulation(room: Room, book: Book) -> Iterator[Need]:
    """Pipes in the void are insulated."""
    for run in room.pipes_of("hot", "cold"):
        leg = out_of_wall(room, run)
        lengths = (*run.lengths, *((leg,) if leg is not None else ()))
        if lengths:
            why = f"{run.kind} to {served(room, run).name}"
            amount = in_all(lengths, "pieces", why.capitalize())
            yield Need(amount, "first fix", why, role=f"pipe insulation {run.size}")
