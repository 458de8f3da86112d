"""Wastes of basins, bidets and urinals: from the trap to the stack."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.outfalls import STACK_SIZE
from tundish.layout.room import PipeRun, Room
from tundish.rules.amounts import each, in_all
from tundish.rules.pipes import LARGEST_BOSS, branches, couplings, in_branch, into_stack, of_iron, outfall, pieces, served, to_stack
from tundish.rules.rule import Need, rule

_BOSSES: Final = {
    32: ("boss strap 110", "boss reducer 40-32"),
    40: ("boss strap 110",),
    50: ("boss strap 110x50",),
}


_REDUCERS: Final = {(40, 32): "waste reducer 40-32", (50, 40): "waste reducer 50-40", (50, 32): "waste reducer 50-32"}


@rule("drainage/waste", figures=("drainage.waste_tail", "drainage.stack_piece", "drainage.strap_clear"), source="common practice")
def waste(room: Room, book: Book) -> Iterator[Need]:
    """Each waste runs from its trap to a boss on the stack.

    A boss is strapped to plastic, or is one of the branch's own where that has some. Where the stack is of cast iron and no WC branch
    brings a new length of plastic stack, one is let in for the bosses. Into another waste entry it is coupled, with a reducer where that
    is larger. A run longer than a bar is coupled from even pieces. Two bends, and one more for every corner, step over to the stack, and
    end of a drop.
    """
    for run in room.pipes_of("waste"):
        name = served(room, run).name
        why = f"waste of {name}"
        cuts = pieces(run)
        yield Need(in_all(run.lengths, "pieces", f"Waste of {name}"), "first fix", why, role=f"waste pipe {run.size}", cuts=cuts)
        yield Need(each(len(run.bends), f"Bends, waste of {name}"), "first fix", why, role=f"waste bend {run.size}")
        yield from couplings(run, why, "waste coupling")
        for role in _joins(room, run, book):
            yield Need(each(1, name), "first fix", why, role=role)
    if to_stack(room, "waste") and of_iron(room) and not to_stack(room, "soil") and not any(branches(room)):
        yield from into_stack(room, book, "bosses of the wastes", f"{room.mark}X1")


def _joins(room: Room, run: PipeRun, book: Book) -> tuple[str, ...]:
    """What a waste goes into: a strap round the stack, a boss of the branch itself, or the pipe that is there."""
    into = outfall(room, run)
    if into.stack and in_branch(room, run, book):
        return () if run.size == LARGEST_BOSS else ("boss reducer 40-32",)
    if into.size >= STACK_SIZE:
        return _BOSSES[run.size]
    reducer = _REDUCERS.get((into.size, run.size))
    return (f"waste coupling {into.size}", reducer) if reducer else (f"waste coupling {run.size}",)
