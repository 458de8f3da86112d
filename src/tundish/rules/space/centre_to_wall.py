"""Whether there is elbow room between an appliance and what is beside it."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.elbow_room import ELBOWS, half_of
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.sides import moved_clear, nearer, nearest, sides_of


@rule("space/centre-to-wall", figures=(*ELBOWS, "space.headroom"), source="half of an activity space of BS 6465-2, from memory")
def centre_to_wall(room: Room, book: Book) -> Iterator[Finding]:
    """The centre of each appliance keeps elbow room from the side walls, as much as its kind asks for.

    To the wall where nothing stands before it, else to the tiles of a boxing or another pre-wall, what hangs on that, or what stays in the
    room, as far out as the appliance comes. What is no higher than its top is reached over.
    """
    for one in room.framed:
        least, sides = half_of(one, book), sides_of(room, one, book.figure("space.headroom").value)
        has = nearer(sides, "Centre to the nearer side")
        state = judge(has, least, None, "look")
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            message = f"{show_length(least.value - has.value)} short of elbow room: move {one.name} away from {nearest(sides)}."
            ways = moved_clear(one, sides, least.value)
        yield Finding("Elbow room to side wall", "Clearances", state, has, "Guidance", least.note, least, None, message, one.name, ways)
