"""What must be reached after the wall is closed."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.design import BY_VALVE
from tundish.layout.room import Room
from tundish.rules.decisions import key_of, names
from tundish.rules.pipes import served
from tundish.rules.rule import Decision, rule


@rule(
    "closing/reach",
    source="common practice; servicing valves are to be accessible: Water Fittings Regulations 1999, schedule 2, from memory",
)
def can_be_reached(room: Room, book: Book) -> Iterator[Decision]:
    """Every valve and joint behind the board can be reached afterwards.

    Through the flush plate, a hatch, or from below the ware: the opening is named for each.
    """
    valves = room.pipes_of("hot", "cold")
    traps = [served(room, run) for run in room.pipes_of("waste") if served(room, run).kind == "urinal"]
    vented = [one for one in room.placed if one.choice.vented == BY_VALVE]
    if valves:
        behind = [f"valves: {', '.join(f'{run.kind} to {served(room, run).name}' for run in valves)}"]
        behind += [f"traps: {names(traps)}"] if traps else []
        behind += [f"air valves: {names(vented)}"] if vented else []
        behind += [f"{one.name}: {one.reaches or 'what is behind it'}" for one in room.recesses if one.kind == "hatch"]
        yield Decision(
            key_of(room, "reach"),
            "Valves and joints can be reached",
            "Name the opening for each before it is covered.",
            "By boarding",
            "Opening named",
            "; ".join(behind),
        )
