"""Whether each frame can be set to the depth of the pre-wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import set_depth


@rule("frames/depth", source="maker's sheet of the frame")
def depth(room: Room, book: Book) -> Iterator[Finding]:
    """The depth of the pre-wall lies within what each frame can be set to.

    Across a corner that is said by the reach of its tie rods, square to the walls.
    """
    for one in room.framed if room.corner is None else ():
        least, most = one.frame.size("depth_least"), one.frame.size("depth_most")
        state = judge(room.depth, least, most)
        message = ""
        ways: tuple[WayOut, ...] = ()
        if state != "passes":
            nearest = least.value if room.depth.value < least.value else most.value
            message = f"Set the pre-wall {show_length(nearest)} deep, or choose a frame that goes to {show_length(room.depth.value)}."
            ways = (set_depth(room, nearest),)
        yield Finding(
            "Frame depth setting", "Void", state, room.depth, "Maker", one.frame.sheet,
            least, most, message, one.name, ways,
        )  # fmt: skip
