"""Whether the studs of frame and appliance are as far apart."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, judge, rule


@rule("frames/spacing", source="makers' sheets; EN 33 and EN 35 give the usual spacings, from memory")
def spacing(room: Room, book: Book) -> Iterator[Finding]:
    """The holes of each appliance are as far apart as the studs of its frame.

    A frame takes one spacing or two.
    """
    for one in room.framed:
        has = one.figures["studs_apart"]
        offered = [one.frame.size(name) for name in ("spacing_a", "spacing_b") if one.frame.has(name)]
        nearest = min(offered, key=lambda each: abs(each.value - has.value))
        state = judge(has, nearest, nearest)
        wanted = " or ".join(show_length(each.value) for each in offered)
        message = "" if state == "passes" else f"The frame takes studs {wanted} apart. Choose a frame or a model that agree."
        yield Finding("Stud spacing", "Clearances", state, has, "Maker", one.frame.sheet, nearest, nearest, message, one.name)
