"""Whether the ceiling comes down on the pre-wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.footprints import of_prewall
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, judge, rule


@rule("space/under-slope", source="geometry of the room as measured")
def under_slope(room: Room, book: Book) -> Iterator[Finding]:
    """The pre-wall stands clear beneath sloping ceilings, stair soffits and beams.

    The lowest place over it, from the bare floor, against its top.
    """
    for under in room.around.unders:
        lowest = under.lowest_over(of_prewall(room))
        if lowest is None:
            continue
        has = number(round(lowest, 1), label=f"Lowest of the {under.name} over the pre-wall")
        state = judge(has, room.top, None)
        message = ""
        if state != "passes":
            short = show_length(room.top.value - has.value)
            message = f"{short} too high beneath the {under.name}: lower the pre-wall, bring it forward, or stop it short of there."
        yield Finding(f"Beneath the {under.name}", "Clearances", state, has, "Own rule", "measured", room.top, None, message)
