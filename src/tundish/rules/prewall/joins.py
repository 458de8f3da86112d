"""What holds two pre-walls together whose fronts go on into one another, and whether there is room for a frame beside the join."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.corner import Across, Join
from tundish.layout.room import Member, Placed, Room, StrutBeside
from tundish.measure import show_length
from tundish.rules.amounts import bare, each, whole_spaces
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Finding, Need, WayOut, judge, rule

LEAST_DEEP: Final = 120.0
"""No run is offered shallower."""


@rule(
    "prewall/joins",
    figures=("prewall.join_apart", "prewall.nuts_each_bracket", "prewall.join_screws"),
    source="own rule; geometry of the two fronts",
)
def joins(room: Room, book: Book) -> Iterator[Need | Finding]:
    """A run that reaches a pre-wall across its corner is joined to it: their fronts go on into one another.

    The end uprights of both stand at the join and are bolted together by hinged brackets, in timber screwed through a bevelled packer,
    from head to foot; counted with the run. The frame across the corner fits beside each join. Wall struts of both that lie over one
    another at one height on the same wall are one, counted with the run; where they cannot be, that is told.
    """
    if room.corner is None:
        yield from (_over(strut, other) for strut in marked(room, WALL_STRUT) for other in room.beside if _overlap(strut, other) > 0)
    for join in room.joins:
        if join is not None and room.corner is None:
            yield from _held(room, join, book)
        elif join is not None and room.corner is not None:
            yield from (_beside(room, room.corner, join, one) for one in room.framed)


def _overlap(strut: Member, other: StrutBeside) -> float:
    """How far two struts lie over one another along the wall; nought where one passes above the other."""
    if abs(strut.z - other.z) >= strut.section[0]:
        return 0.0
    return min(strut.x + strut.length.value, other.right) - max(strut.x, other.left)


def _over(strut: Member, other: StrutBeside) -> Finding:
    left, right = min(strut.x, other.left), max(strut.x + strut.length.value, other.right)
    has = number(round(_overlap(strut, other), 1), label=f"{strut.mark} and {other.mark} over one another")
    long = f"{show_length(left)} to {show_length(right)} along the wall, {show_length(math.ceil(right - left))} long"
    message = (
        f"{other.mark} of {other.whose} lies over it. One strut for both would go {long}: set the brackets at one height, and the struts "
        "alike, or stop one at the wall stud where the other ends."
    )
    return Finding(
        "Wall struts at the join", "Void", "look", has, "Own rule", "measured", None, number(0, label="None"), message, strut.mark
    )


def _held(room: Room, join: Join, book: Book) -> Iterator[Need]:
    apart, why = book.figure("prewall.join_apart"), f"join with {join.name}"
    spaces = whole_spaces(room.top_of_steel, apart, "Spaces up the join") * each(1, "bracket for each")
    places = (spaces + each(1, "At the foot")).named(f"Up the {why}")
    if not room.of_steel:
        screws = (places * bare(book.figure("prewall.join_screws"))).named(f"Screws, {why}")
        yield Need(screws, "frames", why, role="wood screw 80")
        return
    yield Need(places, "frames", why, role="join bracket")
    nuts = (places * bare(book.figure("prewall.nuts_each_bracket"))).named(f"In the brackets of the {why}")
    yield Need(nuts, "frames", why, role="channel nut")
    yield Need(nuts, "frames", why, role="channel bolt")


def _beside(room: Room, corner: Across, join: Join, one: Placed) -> Finding:
    """Whether half of the frame fits between the middle of the front and the join."""
    has = ((corner.run / 2).named("Half of the front") - join.along).named("Middle of the front to the join")
    wide = one.frame.size("width")
    least = (wide / 2).named(f"Half of the frame of {one.name}")
    state = judge(has, least, None)
    message = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        message = f"The frame stands {show_length(math.ceil(round(least.value - has.value, 6)))} into {join.name}."
        ways = tuple(_ways(room, corner, join, least))
        message += " Set it further from its corner, or that run less deep." if len(ways) > 1 else " Set it further from its corner."
    return Finding(
        "Frame beside the join", "Clearances", state, has, "Own rule", "measured", least, None, message, f"{one.name}, {join.name}", ways
    )


def _ways(room: Room, corner: Across, join: Join, least: Figure) -> Iterator[WayOut]:
    turn = math.radians(corner.half)
    out = float(math.ceil(round((least.value + join.along.value) / math.sin(turn), 6)))
    yield WayOut(
        f"Set it {show_length(out)} from its corner: frame, tie rods, boards and tiles follow, and there is less floor before it.",
        f"{room.prewall_path}.setback",
        out,
    )
    deep = float(math.floor(round((corner.run.value / 2 - least.value) * math.cos(turn), 6)))
    if deep >= LEAST_DEEP:
        words = (
            f"Set {join.name} {show_length(deep)} deep: its shelf, ties and tie rods change with it, and pipes have less room behind it."
        )
        yield WayOut(words, f"{join.at}.depth", deep)
