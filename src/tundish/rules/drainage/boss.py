"""Whether the boss of each waste stands where water goes down and not across."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final, NamedTuple

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.pipes import opposite, served, to_stack
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule(
    "drainage/boss",
    figures=("drainage.boss_least", "drainage.crossflow", "drainage.crossflow_small"),
    source="height above the floor: own rule; clear of what is opposite: Approved Document H and EN 12056-2, from memory",
)
def boss(room: Room, book: Book) -> Iterator[Finding]:
    """Each waste comes into the stack above the floor, and clear of the WC branch or the waste that comes in opposite.

    What is sent across the stack may be pushed up a waste that enters opposite and a little below. At its height or above it, far enough
    below, or on the same side of the stack, a boss is clear.
    """
    branches = to_stack(room, "soil")
    bosses = [(run, run.enters) for run in to_stack(room, "waste") if run.enters is not None]
    for run, has in bosses:
        one = served(room, run)
        yield _above_floor(room, book, one, has)
        if branches:
            yield _clear_of_branch(room, book, one, has, across=any(opposite(run, each) for each in branches))
        higher = [enters for other, enters in bosses if enters.value > has.value + _GRACE and opposite(run, other)]
        if higher:
            entry = min(higher, key=lambda each: each.value)
            yield _clear(room, one, has, _Opposite("Boss clear of the waste opposite", entry, book.figure("drainage.crossflow_small")))


class _Opposite(NamedTuple):
    """What comes in opposite a boss: at what invert, and how far below that nothing may enter."""

    title: str
    entry: Figure
    zone: Figure


def _above_floor(room: Room, book: Book, one: Placed, has: Figure) -> Finding:
    least = book.figure("drainage.boss_least")
    state = judge(has, least, None, "look")
    message, ways = "", _NO_WAYS
    if state != "passes":
        message, ways = _raised(room, one, math.ceil(least.value - has.value - _GRACE))
    return Finding("Boss above the floor", "Falls", state, has, "Own rule", least.note, least, None, message, one.name, ways)


def _clear_of_branch(room: Room, book: Book, one: Placed, has: Figure, *, across: bool) -> Finding:
    entry, zone = room.figures.get("branch_invert"), book.figure("drainage.crossflow")
    if not across:
        return Finding(_CLEAR, "Falls", "passes", has, "Guidance", zone.note, message=_BESIDE, place=one.name)
    if entry is None:
        return Finding(_CLEAR, "Falls", "cannot tell", has, "Guidance", zone.note, message="needs branch invert", place=one.name)
    return _clear(room, one, has, _Opposite(_CLEAR, entry, zone))


def _clear(room: Room, one: Placed, has: Figure, to: _Opposite) -> Finding:
    below = (to.entry - to.zone).named("Far enough below what comes in opposite")
    if has.value <= below.value:
        return Finding(to.title, "Falls", "passes", has, "Guidance", to.zone.note, None, below, "", one.name)
    state = judge(has, to.entry, None, "look")
    message, ways = "", _NO_WAYS
    if state != "passes":
        message, ways = _raised(room, one, math.ceil(to.entry.value - has.value - _GRACE))
        message += " Or bring it in on the same side, not opposite."
    return Finding(to.title, "Falls", state, has, "Guidance", to.zone.note, to.entry, None, message, one.name, ways)


def _raised(room: Room, one: Placed, by: int) -> tuple[str, tuple[WayOut, ...]]:
    """Words and the way out of raising an appliance, its waste and its boss with it."""
    top = one.figures["top"].value - room.finished_floor.value + by
    words = f"Raise {one.name} by {show_length(by)}, to {show_length(top)}: studs, waste and every hole in the tile move with it."
    return f"Raise {one.name} by {show_length(by)}, or bring the waste in elsewhere.", (WayOut(words, f"{one.path}.top", top),)


_BESIDE = "It comes in on the side of the branch, not opposite it."
_CLEAR = "Boss clear of the WC branch"
_GRACE = 1e-6
_NO_WAYS: Final[tuple[WayOut, ...]] = ()
