"""Whether each frame stays below the top of the pre-wall."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import must_read
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("frames/height", source="maker's sheet of the frame; geometry")
def height(room: Room, book: Book) -> Iterator[Finding]:
    """Each frame stands below the top rail of the pre-wall."""
    prewall = room.prewall
    for one in room.framed:
        has = one.figures["frame_top"]
        state = judge(has, None, room.top_of_steel)
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            over = math.ceil(has.value - room.top_of_steel.value)
            message = f"The frame is {show_length(over)} too high for the pre-wall. Raise the pre-wall or choose a lower frame."
            if prewall.height == "part":
                to = must_read(prewall, "top").value + over
                words = f"Raise the pre-wall {show_length(over)} to {show_length(to)}: uprights, boards and tiles grow with it."
                ways = (WayOut(words, f"{room.prewall_path}.top", to),)
        yield Finding(
            "Frame under the top rail", "Clearances", state, has, "Maker", one.frame.sheet,
            None, room.top_of_steel, message, one.name, ways,
        )  # fmt: skip
