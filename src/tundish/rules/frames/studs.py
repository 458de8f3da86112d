"""Whether each frame's studs can be set to the height the appliance asks for."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import without
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("frames/studs", source="maker's sheet of the frame")
def studs(room: Room, book: Book) -> Iterator[Finding]:
    """The studs come where the frame can hold them, above the finished floor."""
    for one in room.framed:
        has = without(one.figures["studs"], room.finished_floor).named("Studs above finished floor")
        least, most = one.frame.size("studs_low"), one.frame.size("studs_high")
        state = judge(has, least, most)
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            off = least.value - has.value if has.value < least.value else most.value - has.value
            top = one.figures["top"].value - room.finished_floor.value + off
            does = f"{'Raise' if off > 0 else 'Lower'} the top {show_length(abs(off))} to {show_length(top)}"
            message = f"{does}, or choose another frame."
            ways = (WayOut(f"{does}: studs, outlet and every hole in the tile move with it.", f"{one.path}.top", top),)
        yield Finding("Studs above the floor", "Clearances", state, has, "Maker", one.frame.sheet, least, most, message, one.name, ways)
