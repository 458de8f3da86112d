"""Whether each trap holds enough water, and is no wider than what it drains into."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import number
from tundish.layout.room import Room
from tundish.rules.pipes import served
from tundish.rules.rule import Finding, judge, rule
from tundish.rules.trapped import trapped_with


@rule("drainage/seals", figures=("drainage.seal",), source="Approved Document H, table 1; Plumbing Book 1; urinals from memory")
def seals(room: Room, book: Book) -> Iterator[Finding]:
    """Each trap of up to 50 has a seal of 75, and its waste is no narrower than the trap.

    A seal is pulled down by every discharge; 25 must be left of it.
    """
    for run in room.pipes_of("waste"):
        one = served(room, run)
        for trap in (book.role(role) for role in trapped_with(one)):
            if not trap.has("seal"):
                continue
            has, least = trap.size("seal"), book.figure("drainage.seal")
            state = judge(has, least, None)
            message = "" if state == "passes" else f"{trap.name} is pulled dry too soon: take one with a deeper seal."
            yield Finding("Seal of the trap", "Falls", state, has, "Regulation", least.note, least, None, message, one.name)
            yield _wide(run.size, trap, one.name)


def _wide(size: int, trap: Item, place: str) -> Finding:
    outlet = max((int(end.nominal) for end in trap.ends if end.nominal.isdecimal()), default=size)
    has, least = number(size, label="Waste pipe"), number(outlet, label=f"Outlet of {trap.name}")
    state = judge(has, least, None)
    message = "" if state == "passes" else "A waste never narrows the way the water goes: lay it in the size of the trap."
    return Finding("Waste as wide as its trap", "Falls", state, has, "Regulation", "Approved Document H, 1.6", least, None, message, place)
