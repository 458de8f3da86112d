"""Whether a waste is laid to a fall that empties it and keeps its trap."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.pipes import STEEPEST_FIGURES, steepest
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_length, show_number
from tundish.rules.pipes import elsewhere, not_measured, served
from tundish.rules.rule import Finding, State, WayOut, judge, rule


@rule(
    "drainage/waste-fall",
    figures=(
        "drainage.waste_fall_least",
        *STEEPEST_FIGURES,
    ),
    source="Approved Document H, diagram 3; Plumbing Book 1, table 9.1; steeper short runs from memory",
)
def waste_fall(room: Room, book: Book) -> Iterator[Finding]:
    """A waste falls enough to empty and not so much that it sucks its trap dry.

    A 32 waste may be steeper where it is short: the greatest fall goes down in steps with its length.
    """
    for run in room.pipes_of("waste"):
        if run.fall is not None:
            yield _judged(room, run, run.fall, book)


def _judged(room: Room, run: PipeRun, has: Figure, book: Book) -> Finding:
    least, most = _limits(run, book)
    state: State = judge(has, least, most)
    message, ways = "", _NO_WAYS
    if not_measured(room, run):
        state, message = "cannot tell", f"needs the invert of {run.to}"
    elif state != "passes":
        message = _words(room, run, (least, most))
        ways = elsewhere(room, run, lambda other: _limits(other, book))
    return Finding(
        "Fall of waste", "Falls", state, None if not_measured(room, run) else has, "Regulation", most.note,
        least, most, message, served(room, run).name, ways,
    )  # fmt: skip


def _words(room: Room, run: PipeRun, limits: tuple[Figure, Figure]) -> str:
    least, most = limits
    if run.rise is not None and run.rise.value < 0:
        return (
            f"{run.to} enters {show_length(-run.rise.value)} mm above the outlet: water does not run up. "
            f"Raise {served(room, run).name}, lower the entry, or drain it elsewhere."
        )
    between = f"between {show_number(least.value, None)} and {show_number(most.value, None)} mm a metre"
    return f"Lay it {between}, or move the appliance and its boss."


def _limits(run: PipeRun, book: Book) -> tuple[Figure, Figure]:
    return book.figure("drainage.waste_fall_least"), steepest(run.size, run.run.value, book)


_NO_WAYS: Final[tuple[WayOut, ...]] = ()
