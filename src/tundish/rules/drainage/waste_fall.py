"""Whether a waste is laid to a fall that empties it and keeps its trap."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_number
from tundish.rules.pipes import served
from tundish.rules.rule import Finding, judge, rule

_SHORT_32 = (
    ("drainage.waste_32_shortest", "drainage.waste_32_shortest_fall_most"),
    ("drainage.waste_32_short", "drainage.waste_32_short_fall_most"),
)
"""Runs of 32 up to which a steeper fall is allowed, shortest first, and that fall."""


@rule(
    "drainage/waste-fall",
    figures=(
        "drainage.waste_fall_least",
        "drainage.waste_32_fall_most",
        "drainage.waste_40_fall_most",
        "drainage.waste_50_fall_most",
        *(key for pair in _SHORT_32 for key in pair),
    ),
    source="Approved Document H, diagram 3; Plumbing Book 1, table 9.1; steeper short runs from memory",
)
def waste_fall(room: Room, book: Book) -> Iterator[Finding]:
    """A waste falls enough to empty and not so much that it sucks its trap dry.

    A 32 waste may be steeper where it is short: the greatest fall goes down in steps with its length.
    """
    least = book.figure("drainage.waste_fall_least")
    falls = [(run, run.fall) for run in room.pipes_of("waste") if run.fall is not None]
    for run, has in falls:
        most = _most(run, book)
        state = judge(has, least, most)
        between = f"between {show_number(least.value, None)} and {show_number(most.value, None)} mm a metre"
        message = "" if state == "passes" else f"Lay it {between}, or move the appliance and its boss."
        yield Finding(
            "Fall of waste", "Falls", state, has, "Regulation", most.note,
            least, most, message, served(room, run).name,
        )  # fmt: skip


def _most(run: PipeRun, book: Book) -> Figure:
    if run.size == _SMALL:
        for up_to, most in _SHORT_32:
            if run.run.value <= book.figure(up_to).value * 1000:
                return book.figure(most)
    return book.figure(f"drainage.waste_{run.size}_fall_most")


_SMALL = 32
