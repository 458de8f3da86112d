"""Whether there is elbow room between an appliance and the side wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import smallest
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.elbow_room import ELBOWS, half_of
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import set_centre


@rule("space/centre-to-wall", figures=ELBOWS, source="half of an activity space of BS 6465-2, from memory")
def centre_to_wall(room: Room, book: Book) -> Iterator[Finding]:
    """The centre of each appliance keeps elbow room from the side walls, as much as its kind asks for."""
    for one in room.framed:
        least = half_of(one, book)
        to_right = (room.width - one.centre).named("Centre to right wall")
        has = smallest(one.centre, to_right, label="Centre to the nearer side wall")
        state = judge(has, least, None, "look")
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            short = least.value - has.value
            message = f"{show_length(short)} short of elbow room: move {one.name} away from the side wall."
            if room.width.value >= 2 * least.value:
                to = least.value if one.centre.value <= to_right.value else room.width.value - least.value
                ways = (set_centre(one, to),)
        yield Finding("Elbow room to side wall", "Clearances", state, has, "Guidance", least.note, least, None, message, one.name, ways)
