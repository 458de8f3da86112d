"""Whether the ceiling comes down on the pre-wall."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import must_read
from tundish.figure import number
from tundish.layout.footprints import finished
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("space/under-slope", source="geometry of the room as measured")
def under_slope(room: Room, book: Book) -> Iterator[Finding]:
    """The pre-wall stands clear beneath sloping ceilings, stair soffits and beams.

    The lowest place over it, from the bare floor, against its top.
    """
    for under in room.around.unders:
        lowest = under.lowest_over(finished(room))
        if lowest is None:
            continue
        has = number(round(lowest, 1), label=f"Lowest of the {under.name} over the pre-wall")
        state = judge(has, room.top, None)
        message = ""
        if state != "passes":
            short = show_length(room.top.value - has.value)
            message = f"{short} too high beneath the {under.name}: lower the pre-wall, bring it forward, or stop it short of there."
        ways = tuple(_ways(room, has.value)) if message else ()
        yield Finding(f"Beneath the {under.name}", "Clearances", state, has, "Own rule", "measured", room.top, None, message, "", ways)


def _ways(room: Room, lowest: float) -> Iterator[WayOut]:
    """A lower top, where a pre-wall may be so low; one to the ceiling ends below it where its own top is low enough."""
    most = math.floor(lowest - room.finished_floor.value)
    path = room.prewall_path
    if room.prewall.height == "full":
        own = must_read(room.prewall, "top").value
        if own <= most:
            yield WayOut(
                f"End it below the ceiling, its top at {show_length(own)}: boards and tiles end there, with a shelf.",
                f"{path}.height",
                "part",
            )
    elif most >= _LEAST:
        words = f"Set the top of the pre-wall to {show_length(most)}: frames and what hangs on them have to go under it."
        yield WayOut(words, f"{path}.top", most)


_LEAST = 300
"""No pre-wall is lower."""
