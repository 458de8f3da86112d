"""Whether the struts on the walls of a corner stay behind the pre-wall."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.design import NOGGINS
from tundish.layout.room import Member, Room
from tundish.measure import show_length
from tundish.rules.grounds import on_timber_studs
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("prewall/corner-struts", source="geometry of the room as measured")
def corner_struts(room: Room, book: Book) -> Iterator[Finding]:
    """A strut on a wall of a corner ends behind the uprights.

    One whose outer wall stud lies further from the corner than the pre-wall would come out of its front; on noggins it ends before. Where
    a run along that wall is joined to the front it goes on behind that, and is not asked.
    """
    most = room.figures["behind_uprights"]
    for strut in marked(room, WALL_STRUT) if room.corner is not None else ():
        if room.joins[1 if strut.turn > 0 else 0] is not None:
            continue
        turn, wall = math.radians(strut.turn), strut.where.partition(",")[0].removeprefix("on ")
        end = max(strut.y, strut.y + strut.length.value * math.sin(turn)) + strut.section[1] * math.cos(turn)
        has = number(round(end, 1), label=f"Outer end of {strut.mark}, out of the corner")
        state = judge(has, None, most)
        message = ""
        if state != "passes":
            by = show_length(math.ceil(has.value - most.value))
            message = f"Its outer stud is {by} too far out. Set the pre-wall further from its corner, or let it end on a noggin."
        ways = tuple(_ways(room, strut)) if message else ()
        yield Finding(f"{strut.mark} behind the pre-wall", "Void", state, has, "Own rule", "measured", None, most, message, wall, ways)


def _ways(room: Room, strut: Member) -> Iterator[WayOut]:
    if on_timber_studs(room, strut.x) and room.prewall.backing != NOGGINS:
        words = "Noggins between the wall studs behind the struts, on which they end: cut, screwed and counted; the wall is opened there."
        yield WayOut(words, f"{room.prewall_path}.backing", NOGGINS)
