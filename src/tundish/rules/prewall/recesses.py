"""Whether niches and access openings have their place in the pre-wall."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.recesses import Recess
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_length
from tundish.rules.faces import niches
from tundish.rules.rule import Finding, State, WayOut, judge, rule

_GROUP: Final = "Void"


@rule("prewall/recesses", figures=("void.clip",), source="geometry of frame, pipes and opening; a finger of room behind: common practice")
def recesses(room: Room, book: Book) -> Iterator[Finding]:
    """Niches and access openings keep clear of frames, of the edges of the pre-wall and of one another, and niches of the pipes behind.

    A niche may be as deep as the void, less what passes behind it. An access opening in front of a frame is to be looked at: a hand has to
    pass beside its legs.
    """
    for one in room.recesses:
        yield _place(room, one)
    for one in niches(room):
        if one.depth is not None:
            yield _deep(room, one, one.depth, book.figure("void.clip"))


def _place(room: Room, one: Recess) -> Finding:
    state, message = _said(room, one)
    return Finding(f"Place of the {_WHAT[one.kind]}", "Clearances", state, None, "Own rule", "geometry", message=message, place=one.name)


_WHAT: Final = {"niche": "niche", "hatch": "access opening"}


def _said(room: Room, one: Recess) -> tuple[State, str]:
    left, right = room.start.value, (room.start + room.run).value
    if one.open_left.value < left or one.open_right.value > right:
        return "fails", "It passes the end of the pre-wall: move it along the wall, or make it narrower."
    if one.open_foot.value < 0 or one.open_head.value > room.top_of_steel.value:
        return "fails", f"It passes the {'floor' if one.open_foot.value < 0 else 'top of the pre-wall'}: move it, or make it lower."
    for two in room.framed:
        if one.between(two.left, two.right) and one.open_foot.value < two.figures["frame_top"].value:
            if one.kind == "hatch":
                return "look", f"It is in front of the frame of {two.name}: see that a hand passes beside its legs."
            return "fails", f"The frame of {two.name} is behind it: move it along the wall, or above the frame."
    for other in room.recesses:
        if other is not one and _overlap(one, other):
            return "fails", f"It runs into {other.name}: move one of them."
    return "passes", ""


def _overlap(one: Recess, other: Recess) -> bool:
    level = one.open_foot.value < other.open_head.value and other.open_foot.value < one.open_head.value
    return level and one.between(other.open_left.value, other.open_right.value)


def _deep(room: Room, one: Recess, depth: Figure, clip: Figure) -> Finding:
    """How deep a niche is against the void, less the pipes behind it."""
    most, what = room.depth, ""
    for run in room.pipes:
        taken = _taken(one, run, clip)
        if taken is not None and (room.depth - taken).value < most.value:
            most, what = (room.depth - taken).named(f"Void less {run.what}"), run.what
    state = judge(depth, None, most)
    message = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        behind = f"{what} passes behind it" if what else "the wall is behind it"
        message = f"{show_length(depth.value - most.value)} too deep: {behind}. Make it shallower, or move it."
        if most.value > 0:
            ways = (WayOut(f"Make it {show_length(most.value)} deep.", f"{one.path}.depth", most.value),)
    return Finding("Depth of the niche", _GROUP, state, depth, "Own rule", "common practice", None, most, message, one.name, ways)


def _taken(one: Recess, run: PipeRun, clip: Figure) -> Figure | None:
    """How much of the void a pipe behind the opening takes, from the wall: its distance, half its size, its clip; None where it is not."""
    half = max(run.outside, float(run.size)) / 2
    for (x1, z1), (x2, z2) in zip(run.points, run.points[1:], strict=False):
        across = one.between(min(x1, x2) - half, max(x1, x2) + half)
        if across and min(z1, z2) - half < one.open_head.value and one.open_foot.value < max(z1, z2) + half:
            own = Figure(2 * half, 2 * half, 2 * half, "mm", f"{run.what}, outside")
            return own + clip if run.from_wall is None else run.from_wall + own / 2
    return None
