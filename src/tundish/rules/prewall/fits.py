"""Whether the pre-wall fits between the walls."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("prewall/fits", source="geometry of the room as measured")
def fits(room: Room, book: Book) -> Iterator[Finding]:
    """The pre-wall ends at or before the right-hand wall."""
    has = (room.start + room.run).named("Right end of the pre-wall")
    state = judge(has, None, room.width)
    message = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        over, to = has.value - room.width.value, room.width.value - room.start.value
        message = f"The pre-wall is {show_length(over)} longer than the room. Shorten it, or start it further left."
        words = f"Shorten the pre-wall to {show_length(to)}: rails, boards and tiles shorten with it."
        ways = (WayOut(words, f"{room.prewall_path}.run", to),)
    yield Finding("Pre-wall in the room", "Clearances", state, has, "Own rule", "measured", None, room.width, message, "", ways)
