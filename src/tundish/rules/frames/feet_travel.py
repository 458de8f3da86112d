"""Whether the feet of each frame reach its height."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, judge, rule


@rule("frames/feet-travel", source="maker's sheet of the frame")
def feet_travel(room: Room, book: Book) -> Iterator[Finding]:
    """The feet of each frame reach the height it has to stand at."""
    for one in room.placed:
        has, least, most = one.figures["feet"], number(0, "mm", "Feet pushed in"), one.frame.size("foot_travel")
        state = judge(has, least, most)
        yield Finding(
            "Frame feet", "Clearances", state, has, "Maker", one.frame.sheet,
            least, most, "" if state == "passes" else _words(has.value, most.value), one.name,
        )  # fmt: skip


def _words(has: float, most: float) -> str:
    if has < 0:
        return f"The frame stands {show_length(-has)} too high with its feet pushed in. Choose a lower frame, or settle the build-up."
    return f"The feet are {show_length(has - most)} short: ply packers are listed to stand them on. Fix through them into the floor."
