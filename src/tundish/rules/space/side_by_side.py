"""Whether two who use neighbouring appliances at once have room."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.layout.design import USES
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.elbow_room import ELBOWS, half_of
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import set_centre


@rule(
    "space/side-by-side",
    figures=ELBOWS,
    source="activity spaces of BS 6465-2 side by side, from memory: they overlap in one-user rooms only",
)
def side_by_side(room: Room, book: Book) -> Iterator[Finding]:
    """The centres of two neighbours that two people use at once are as far apart as both need.

    Asked of two of one kind, which are there for two, and of all neighbours in a room used more than now and then. In a room that one
    uses at a time the spaces before its appliances may overlap.
    """
    busy = room.plan.design.piping.use != USES[0]
    for left, right in pairwise(room.framed):
        if busy or left.kind == right.kind:
            has = (right.centre - left.centre).named("Centre to centre")
            least = (half_of(left, book) + half_of(right, book)).named("Half of each activity space")
            state = judge(has, least, None, "look")
            message, ways = "", _NO_WAYS
            if state != "passes":
                message = f"{show_length(least.value - has.value)} short for two at once: move one of them along the wall."
                ways = (set_centre(right, left.centre.value + least.value),)
            source = half_of(right, book).note
            place = _names(left, right)
            yield Finding("Room for two side by side", "Clearances", state, has, "Guidance", source, least, None, message, place, ways)


def _names(left: Placed, right: Placed) -> str:
    return f"{left.name} and {right.name}"


_NO_WAYS: tuple[WayOut, ...] = ()
