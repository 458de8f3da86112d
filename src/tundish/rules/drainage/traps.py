"""What stands between the ware and its waste."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.pipes import served
from tundish.rules.rule import Cut, Need, Stage, rule
from tundish.rules.trapped import IN_THE_WALL, trapped_with

_ONTO_PIPE: Final = {40: ("waste reducer 40-32", 32), 50: ("waste reducer 50-40", 40)}
"""By the size of the pipe: the reducer, and the size of the trap."""


@rule(
    "drainage/traps",
    figures=("drainage.trap_stub",),
    source="Approved Document H, table 1, for basins and bidets: 32 trap, 75 seal; urinals from memory",
)
def traps(room: Room, book: Book) -> Iterator[Need]:
    """Each basin and bidet has its own waste and trap, each urinal too.

    A basin's trap is that which was chosen: seen, behind a half pedestal with it, or in the wall, which is set at first fix. A short
    piece of its own pipe and a reducer join a trap to a pipe larger than itself.
    """
    stubs = 0
    for run in room.pipes_of("waste"):
        one = served(room, run)
        for part in trapped_with(one):
            stage: Stage = "first fix" if part == IN_THE_WALL else "second fix"
            yield Need(each(1, one.name), stage, f"waste of {one.name}", role=part)
        if run.size in _ONTO_PIPE:
            reducer, size = _ONTO_PIPE[run.size]
            stubs += 1
            yield Need(each(1, one.name), "second fix", f"waste of {one.name}", role=reducer)
            yield _stub(book, one.name, f"{room.mark}J{stubs}", size)


def _stub(book: Book, name: str, mark: str, size: int) -> Need:
    """The piece of pipe between a trap and the reducer: both have sockets."""
    length = book.figure("drainage.trap_stub")
    cut = Cut(mark, length, f"Waste, {name}", "between trap and reducer")
    return Need(length, "second fix", f"waste of {name}", role=f"waste pipe {size}", cuts=(cut,))
