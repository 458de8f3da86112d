"""What stands between the ware and its waste."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.pipes import served
from tundish.rules.rule import Need, rule

_ONTO_PIPE: Final = {40: ("waste reducer 40-32",), 50: ("waste reducer 50-40",)}


@rule("drainage/traps", source="Approved Document H, table 1, for basins and bidets: 32 trap, 75 seal; urinals from memory")
def traps(room: Room, book: Book) -> Iterator[Need]:
    """Each basin and bidet has its own waste and trap, each urinal its trap.

    A reducer joins a trap to a pipe larger than itself.
    """
    for run in room.pipes_of("waste"):
        one = served(room, run)
        for role in (*KINDS[one.kind].traps, *_ONTO_PIPE.get(run.size, ())):
            yield Need(each(1, one.name), "second fix", f"waste of {one.name}", role=role)
