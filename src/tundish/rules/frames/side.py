"""Whether each frame has room beside it to be fixed."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import smallest
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import set_centre


@rule("frames/side", source="maker's sheet of the frame")
def side(room: Room, book: Book) -> Iterator[Finding]:
    """The centre of each frame keeps its distance from both side walls."""
    for one in room.framed:
        to_right = (room.width - one.centre).named("Centre to right wall")
        has = smallest(one.centre, to_right, label="Centre to the nearer side wall")
        least = one.frame.size("least_side")
        state = judge(has, least, None)
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            short = least.value - has.value
            centre = one.centre.value + (short if one.centre.value <= to_right.value else -short)
            message = f"Move {one.name} {show_length(short)} away from the side wall."
            ways = (set_centre(one, centre),)
        yield Finding("Frame to side wall", "Clearances", state, has, "Maker", one.frame.sheet, least, None, message, one.name, ways)
