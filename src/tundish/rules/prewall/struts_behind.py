"""Whether the struts on the wall stay behind a pre-wall that ends short of it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.design import NOGGINS
from tundish.layout.room import Member, Room
from tundish.measure import show_length
from tundish.rules.grounds import on_timber_studs
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("prewall/struts-behind", source="geometry of the room as measured")
def struts_behind(room: Room, book: Book) -> Iterator[Finding]:
    """A strut on the wall ends behind its pre-wall.

    Where the pre-wall stops short of the side wall and the wall stud beside a bracket lies further out, the strut would be seen; on
    noggins it ends before.
    """
    if room.corner is not None:
        return
    start, end = room.start, (room.start + room.run).named("Right end of the pre-wall")
    for strut in marked(room, WALL_STRUT):
        if not room.at_wall[0]:
            yield _judged(room, strut, number(round(strut.x, 1), label=f"Left end of {strut.mark}"), start, None)
        if not room.at_wall[1]:
            yield _judged(room, strut, number(round(strut.x + strut.length.value, 1), label=f"Right end of {strut.mark}"), None, end)


def _judged(room: Room, strut: Member, has: Figure, least: Figure | None, most: Figure | None) -> Finding:
    state, message = judge(has, least, most), ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        out = show_length(math.ceil(max(least.value - has.value if least else 0.0, has.value - most.value if most else 0.0)))
        noggin = ", or let it end on a noggin" if on_timber_studs(room, strut.x) else ", or let a stud in nearer"
        message = f"It would come {out} out past the end of the pre-wall, to its outer stud. Let the pre-wall run on over it{noggin}."
        ways = tuple(_ways(room, strut, has.value if most else None))
    return Finding(f"{strut.mark} behind the pre-wall", "Void", state, has, "Own rule", "measured", least, most, message, "", ways)


def _ways(room: Room, strut: Member, right: float | None) -> Iterator[WayOut]:
    if right is not None:
        to = math.ceil(right - room.start.value)
        words = f"Let the pre-wall run for {show_length(to)}: rails, boards and tiles lengthen with it."
        yield WayOut(words, f"{room.prewall_path}.run", to)
    if on_timber_studs(room, strut.x) and room.prewall.backing != NOGGINS:
        words = "Noggins between the wall studs behind the struts, on which they end: cut, screwed and counted; the wall is opened there."
        yield WayOut(words, f"{room.prewall_path}.backing", NOGGINS)
