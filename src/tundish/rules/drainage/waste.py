"""Wastes of basins, bidets and urinals: from the trap to the stack."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each, in_all
from tundish.rules.pipes import into_stack, of_iron, pieces, served
from tundish.rules.rule import Need, rule

_BOSSES: Final = {
    32: ("boss strap 110", "boss reducer 40-32"),
    40: ("boss strap 110",),
    50: ("boss strap 110x50",),
}


@rule("drainage/waste", figures=("drainage.waste_tail", "drainage.stack_piece"), source="common practice")
def waste(room: Room, book: Book) -> Iterator[Need]:
    """Each waste runs from its trap to a boss on the stack.

    A boss is strapped to plastic. Where the stack is of cast iron and no WC branch brings a new length of plastic stack, one is let
    in for the bosses.
    """
    runs = room.pipes_of("waste")
    for run in runs:
        name = served(room, run).name
        why = f"waste of {name}"
        cuts = pieces(run)
        yield Need(in_all(run.lengths, "pieces", f"Waste of {name}"), "first fix", why, role=f"waste pipe {run.size}", cuts=cuts)
        yield Need(each(2, f"Bends, waste of {name}"), "first fix", why, role=f"waste bend {run.size}")
        for role in _BOSSES[run.size]:
            yield Need(each(1, name), "first fix", why, role=role)
    if runs and of_iron(room) and not room.pipes_of("soil"):
        yield from into_stack(room, book, "bosses of the wastes", f"{room.mark}X1")
