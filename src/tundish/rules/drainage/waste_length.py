"""Whether a waste is short enough for its size."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted
from tundish.layout.room import Room
from tundish.rules.pipes import served
from tundish.rules.rule import Finding, judge, rule


@rule(
    "drainage/waste-length",
    figures=("drainage.waste_32_most", "drainage.waste_40_most", "drainage.waste_50_most"),
    source="Approved Document H, diagram 3; Plumbing Book 1, table 9.1",
)
def waste_length(room: Room, book: Book) -> Iterator[Finding]:
    """A waste is no longer than its size may be without a vent."""
    for run in room.pipes_of("waste"):
        has, most = converted(run.run, "m", "Length of waste"), book.figure(f"drainage.waste_{run.size}_most")
        state = judge(has, None, most)
        message = "" if state == "passes" else "Bring it nearer to the stack, or ventilate the waste."
        yield Finding(
            "Length of waste", "Falls", state, has, "Regulation", most.note,
            None, most, message, served(room, run).name,
        )  # fmt: skip
