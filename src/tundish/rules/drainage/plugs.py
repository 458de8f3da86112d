"""What keeps dirt out of open pipes, and lets them be tested."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.pipes import served
from tundish.rules.rule import Need, rule

_PLUGS: Final = {"soil": "test plug 110", "waste": "test plug 40"}


@rule("drainage/plugs", source="common practice")
def plugs(room: Room, book: Book) -> Iterator[Need]:
    """Every open pipe end is plugged until second fix.

    The plugs serve the test too. A 50 waste is plugged in its reducer.
    """
    for run in room.pipes_of("soil", "waste"):
        name = served(room, run).name
        yield Need(each(1, name), "first fix", f"open end, {name}", role=_PLUGS[run.kind])
