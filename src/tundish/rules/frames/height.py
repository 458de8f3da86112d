"""Whether each frame stays below the top of the pre-wall."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import must_read
from tundish.figure import Figure
from tundish.layout.makers import size
from tundish.layout.outline import TIMBER
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("frames/height", source="maker's sheet of the frame; geometry")
def height(room: Room, book: Book) -> Iterator[Finding]:
    """Each frame stands below the top rail of the pre-wall, which lies flat over it: its underside counts, not the top of steel."""
    prewall, under = room.prewall, under_rail(room, book)
    for one in room.framed:
        has = one.figures["frame_top"]
        state = judge(has, None, under)
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            over = math.ceil(has.value - under.value)
            message = f"The frame is {show_length(over)} too high for the pre-wall. Raise the pre-wall or choose a lower frame."
            if prewall.height == "part":
                to = must_read(prewall, "top").value + over
                words = f"Raise the pre-wall by {show_length(over)}, to {show_length(to)}: uprights, boards and tiles grow with it."
                ways = (WayOut(words, f"{room.prewall_path}.top", to),)
        yield Finding(
            "Frame under the top rail", "Clearances", state, has, "Maker", one.frame.sheet,
            None, under, message, one.name, ways,
        )  # fmt: skip


def under_rail(room: Room, book: Book) -> Figure:
    """The underside of the top rail, or of the head plate: strut lies flat on its back, timber on its wide side."""
    rail = size(room.strut, "depth", "Depth of strut") if room.of_steel else size(book.role(TIMBER), "face", "Thickness of timber")
    return (room.top_of_steel - rail).named("Underside of the top rail" if room.of_steel else "Underside of the head plate")
