"""Whether another waste entry takes the pipe that is led to it."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.rules.pipes import outfall, served
from tundish.rules.rule import Finding, judge, rule


@rule("drainage/entry", source="common practice: a drain never narrows the way the water goes")
def entry(room: Room, book: Book) -> Iterator[Finding]:
    """No discharge runs into a smaller pipe."""
    for run in room.pipes_of("soil", "waste"):
        into = outfall(room, run)
        if into.stack:
            continue
        has, most = number(run.size, label=run.what), number(into.size, label=into.name)
        state = judge(has, None, most)
        message = (
            "" if state == "passes" else f"{into.name} is {into.size} and the pipe is {run.size}: it may not narrow. Drain it elsewhere."
        )
        yield Finding(
            "Entry takes the pipe", "Falls", state, has, "Own rule", "common practice", None, most, message, served(room, run).name
        )
