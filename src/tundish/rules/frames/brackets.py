"""Whether the wall brackets of frames side by side, and a side wall, leave room for one another."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout import settings
from tundish.layout.bracket_turns import IN, SQUARE
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.rods import depth_that_serves, reach_turned, rods_for, some_serves
from tundish.rules.rule import Finding, WayOut, judge, rule
from tundish.rules.ways import set_centre


@rule("frames/brackets", figures=("frames.bracket_clear",), source="own rule: a spanner turns between two tie rods")
def brackets(room: Room, book: Book) -> Iterator[Finding]:
    """The wall brackets of each frame clear those of the next one, and the side walls.

    Turning a bracket makes room, where the frame's sheet says how far one turns and a tie rod still fits.
    """
    for gap in _gaps(room):
        least = book.figure("frames.bracket_clear")
        state = judge(gap.has, least, None)
        message, ways = "", tuple[WayOut, ...]()
        if state != "passes":
            short = least.value - gap.has.value
            ways = tuple(_ways(room, gap, short, book))
            message = f"{show_length(short)} short: {_does(gap, ways)}"
        yield Finding("Wall brackets apart", "Clearances", state, gap.has, "Own rule", least.note, least, None, message, gap.place, ways)


@dataclass(frozen=True, slots=True)
class _Gap:
    """What is clear beside one wall bracket or between two, and each frame with the way it would move to make more: −1 left, 1 right."""

    has: Figure
    place: str
    frames: tuple[tuple[Placed, int], ...]


def _gaps(room: Room) -> Iterator[_Gap]:
    frames = room.tied
    for left, right in pairwise(frames):
        has = (right.figures["bracket_left"] - left.figures["bracket_right"]).named("Between their wall brackets")
        yield _Gap(has, f"{left.name} and {right.name}", ((left, -1), (right, 1)))
    if frames and room.at_wall[0]:
        has = frames[0].figures["bracket_left"].named("Left wall to wall bracket")
        yield _Gap(has, f"{frames[0].name} and left wall", ((frames[0], 1),))
    if frames and room.at_wall[1]:
        has = (room.width - frames[-1].figures["bracket_right"]).named("Wall bracket to right wall")
        yield _Gap(has, f"{frames[-1].name} and right wall", ((frames[-1], -1),))


def _does(gap: _Gap, ways: tuple[WayOut, ...]) -> str:
    """What to do in words; where the rule kept a bracket from being turned, first why."""
    kept = [f"{one.name} stays square to the wall: {one.bracket_why}. " for one, _ in gap.frames if _kept(one)]
    turn = "turn a wall bracket in, or " if any(way.path.endswith(".bracket") for way in ways) else ""
    deep = "set the pre-wall to another depth, or " if any(way.path.endswith(".depth") for way in ways) else ""
    words = f"{turn}{deep}move {'one of them' if len(gap.frames) > 1 else gap.frames[0][0].name} along the wall."
    return "".join(kept) + (words[:1].upper() + words[1:] if kept else words)


def _ways(room: Room, gap: _Gap, short: float, book: Book) -> Iterator[WayOut]:
    for one, away in gap.frames:
        turned, rods = reach_turned(one, IN), rods_for(one, book)
        gains = settings.bracket_aside(one.frame, one.choice.bracket).value - settings.bracket_aside(one.frame, IN).value
        if gains >= short and _kept(one):
            depth = depth_that_serves(room, turned, rods)
            if depth is not None:
                yield depth
        elif gains >= short and some_serves(rods, turned):
            yield WayOut(f"Turn the wall brackets of {one.name} in: there is {show_length(gains)} to gain.", f"{one.path}.bracket", IN)
        if _room_beyond(room, one, away) >= short + book.figure("frames.bracket_clear").value:
            yield set_centre(one, one.centre.value + away * short)


def _kept(one: Placed) -> bool:
    """Whether the rule would have turned its brackets in, had a tie rod fitted then."""
    return bool(one.bracket_why) and one.choice.bracket == SQUARE


def _room_beyond(room: Room, one: Placed, away: int) -> float:
    """From its bracket on that side to the next one there, the side wall or the end of the pre-wall."""
    at = room.tied.index(one) + away
    edge = one.figures["bracket_right" if away > 0 else "bracket_left"].value
    if 0 <= at < len(room.tied):
        return abs(room.tied[at].figures["bracket_left" if away > 0 else "bracket_right"].value - edge)
    return abs((room.start + room.run if away > 0 else room.start).value - edge)
