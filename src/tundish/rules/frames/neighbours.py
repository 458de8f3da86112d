"""Whether frames and appliances beside one another have room."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import set_centre


@rule("frames/neighbours", figures=("space.ware_gap",), source="makers' sheets of the frames; common practice for the appliances")
def neighbours(room: Room, book: Book) -> Iterator[Finding]:
    """Neighbouring frames do not touch, and there is elbow room between neighbouring appliances."""
    none, gap = number(0, "mm", "Frames side by side"), book.figure("space.ware_gap")
    for left, right in pairwise(room.framed):
        place = f"{left.name} and {right.name}"
        frames = _between(left, right, left.frame.size("width"), right.frame.size("width")).named("Between the frames")
        state = judge(frames, none, None)
        message, ways = _mend(right, none.value - frames.value) if state != "passes" else ("", ())
        yield Finding("Frame to frame", "Clearances", state, frames, "Maker", "makers' sheets", none, None, message, place, ways)
        ware = _between(left, right, left.ware.size("width"), right.ware.size("width")).named("Between the appliances")
        state = judge(ware, gap, None, "look")
        message, ways = _mend(right, gap.value - ware.value) if state != "passes" else ("", ())
        yield Finding("Appliance to appliance", "Clearances", state, ware, "Guidance", gap.note, gap, None, message, place, ways)


def _between(left: Placed, right: Placed, one: Figure, other: Figure) -> Figure:
    apart = (right.centre - left.centre).named("Centre to centre")
    return apart - (one / 2).named(f"Half of {left.name}") - (other / 2).named(f"Half of {right.name}")


def _mend(right: Placed, short: float) -> tuple[str, tuple[WayOut, ...]]:
    return f"{show_length(short)} short: move one of them along the wall.", (set_centre(right, right.centre.value + short),)
