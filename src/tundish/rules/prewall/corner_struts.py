"""Whether the struts on the walls of a corner stay behind the pre-wall."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Finding, judge, rule


@rule("prewall/corner-struts", source="geometry of the room as measured")
def corner_struts(room: Room, book: Book) -> Iterator[Finding]:
    """A strut on a wall of a corner ends behind the uprights.

    One whose outer wall stud lies further from the corner than the pre-wall would come out of its front.
    """
    most = room.figures["behind_uprights"]
    for strut in marked(room, WALL_STRUT) if room.corner is not None else ():
        turn, wall = math.radians(strut.turn), strut.where.partition(",")[0].removeprefix("on ")
        end = max(strut.y, strut.y + strut.length.value * math.sin(turn)) + strut.section[1] * math.cos(turn)
        has = number(round(end, 1), label=f"Outer end of {strut.mark}, out of the corner")
        state = judge(has, None, most)
        message = ""
        if state != "passes":
            by = show_length(math.ceil(has.value - most.value))
            message = (
                f"Its outer stud is {by} too far out. Set the pre-wall further from its corner, or open the wall and let a noggin in "
                f"between the studs, behind the bracket at {show_length(strut.z + strut.section[0] / 2)}: that is not counted."
            )
        yield Finding(f"{strut.mark} behind the pre-wall", "Void", state, has, "Own rule", "measured", None, most, message, wall)
