"""Whether the boss of each waste stands where water goes down and not across."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.pipes import served, to_stack
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule(
    "drainage/boss",
    figures=("drainage.boss_least", "drainage.crossflow"),
    source="height above the floor: own rule; clear of a branch: Approved Document H and EN 12056-2, from memory",
)
def boss(room: Room, book: Book) -> Iterator[Finding]:
    """Each waste comes into the stack above the floor, and clear of the WC branch.

    What a pan sends across the stack may be pushed up a waste that enters opposite and a little below. At the branch or above it, or
    far enough below, a boss is clear.
    """
    branches = to_stack(room, "soil")
    bosses = [(served(room, run), run.enters) for run in to_stack(room, "waste") if run.enters is not None]
    for one, has in bosses:
        yield _above_floor(room, book, one, has)
        if branches:
            yield _clear_of_branch(room, book, one, has)


def _above_floor(room: Room, book: Book, one: Placed, has: Figure) -> Finding:
    least = book.figure("drainage.boss_least")
    state = judge(has, least, None, "look")
    message, ways = "", _NO_WAYS
    if state != "passes":
        message, ways = _raised(room, one, math.ceil(least.value - has.value - _GRACE))
    return Finding("Boss above the floor", "Falls", state, has, "Own rule", least.note, least, None, message, one.name, ways)


def _clear_of_branch(room: Room, book: Book, one: Placed, has: Figure) -> Finding:
    entry, zone = room.figures.get("branch_invert"), book.figure("drainage.crossflow")
    if entry is None:
        return Finding(_CLEAR, "Falls", "cannot tell", has, "Guidance", zone.note, message="needs branch invert", place=one.name)
    below = (entry - zone).named("Far enough below the branch")
    if has.value <= below.value:
        return Finding(_CLEAR, "Falls", "passes", has, "Guidance", zone.note, None, below, "", one.name)
    state = judge(has, entry, None, "look")
    message, ways = "", _NO_WAYS
    if state != "passes":
        message, ways = _raised(room, one, math.ceil(entry.value - has.value - _GRACE))
        message += " Or bring it in on the side of the branch, not opposite."
    return Finding(_CLEAR, "Falls", state, has, "Guidance", zone.note, entry, None, message, one.name, ways)


def _raised(room: Room, one: Placed, by: int) -> tuple[str, tuple[WayOut, ...]]:
    """Words and the way out of raising an appliance, its waste and its boss with it."""
    top = one.figures["top"].value - room.finished_floor.value + by
    words = f"Raise {one.name} by {show_length(by)}, to {show_length(top)}: studs, waste and every hole in the tile move with it."
    return f"Raise {one.name} by {show_length(by)}, or bring the waste in elsewhere.", (WayOut(words, f"{one.path}.top", top),)


_CLEAR = "Boss clear of the WC branch"
_GRACE = 1e-6
_NO_WAYS: Final[tuple[WayOut, ...]] = ()
