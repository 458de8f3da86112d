"""Where an appliance can be moved: the sizes that say where it is, each tied to the input that holds it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from tundish import typed
from tundish.estimate import Job
from tundish.field import Entry, describe, get
from tundish.figure import Known
from tundish.layout.room import Placed, Room

SNAP: Final = 10.0
"""What is dropped lands on a whole multiple of this, mm; typed values never do."""


@dataclass(frozen=True, slots=True)
class Size:
    """One size of an appliance that can be typed: the input holds `start + sign × size`."""

    label: str
    path: str
    shown: float
    start: float = 0.0
    sign: int = 1


def sizes(room: Room, placed: Placed) -> tuple[Size, ...]:
    """The sizes of an appliance in the order D steps through them."""
    x, name, centre = placed.centre.value, placed.name, f"{placed.path}.centre"
    height = placed.figures["top"].value - room.finished_floor.value
    return (
        Size(f"{name} from left wall", centre, x),
        Size(f"{name}, top above finished floor", f"{placed.path}.top", height),
        *_gaps(room, placed),
        Size(f"{name} from right wall", centre, room.width.value - x, room.width.value, -1),
    )


def taken(job: Job, size: Size, words: str) -> tuple[Entry | None, str]:
    """The input's new value for what was typed as a size, and what is wrong with it."""
    entry, problem = typed.taken(describe(Job, size.path), words, get(job, size.path))
    if problem or not isinstance(entry, Entry):
        return None, problem or "Type a length"
    ends = [None if each is None else size.start + size.sign * each for each in (entry.low, entry.high)]
    low, high = ends if size.sign > 0 else reversed(ends)
    return replace(entry, value=size.start + size.sign * entry.value, low=low, high=high), ""


def moved(job: Job, path: str, value: float) -> Entry:
    """The input at another value; how it is known stays, unless it was only assumed."""
    before, declared = get(job, path), describe(Job, path)
    if not isinstance(before, Entry):
        return Entry(value, declared.known)
    known = declared.known if before.known is Known.ASSUMED else before.known
    return replace(before, value=value, known=known, low=None, high=None, typed="")


def held(job: Job, size: Size) -> float:
    """The value of the input as the job holds it; where it is blank, as it is drawn."""
    entry = get(job, size.path)
    return entry.value if isinstance(entry, Entry) else size.shown


def snapped(value: float) -> float:
    """The nearest place of the snapping grid."""
    return round(value / SNAP) * SNAP


def _gaps(room: Room, placed: Placed) -> Iterator[Size]:
    centre, half = f"{placed.path}.centre", placed.ware.size("width").value / 2
    for left, right in pairwise(room.placed):
        if placed is right:
            edge = left.centre.value + left.ware.size("width").value / 2
            yield Size(f"{placed.name}, gap to {left.name}", centre, placed.centre.value - half - edge, edge + half, 1)
        elif placed is left:
            edge = right.centre.value - right.ware.size("width").value / 2
            yield Size(f"{placed.name}, gap to {right.name}", centre, edge - placed.centre.value - half, edge - half, -1)
