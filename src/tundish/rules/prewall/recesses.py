"""Whether niches and access openings have their place in the pre-wall."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.recesses import Recess
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_length
from tundish.rules.faces import front_of, niches
from tundish.rules.rule import Finding, State, WayOut, judge, rule

_GROUP: Final = "Void"


@rule("prewall/recesses", figures=("void.clip",), source="geometry of frame, pipes and opening; a finger of room behind: common practice")
def recesses(room: Room, book: Book) -> Iterator[Finding]:
    """Niches and access openings keep clear of frames, of the edges of the pre-wall and of one another, and niches of the pipes behind.

    So they do of what another pre-wall in a corner hides of the front. A niche may be as deep as the void, less what passes behind it;
    across a corner the walls come forward behind its ends. An access opening in front of a frame is to be looked at: a hand has to pass
    beside its legs.
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
    wrong = _past_an_edge(room, one) or _hidden(room, one)
    if wrong:
        return "fails", wrong
    for two in room.framed:
        if one.between(two.left, two.right) and one.open_foot.value < two.figures["frame_top"].value:
            if one.kind == "hatch":
                return "look", f"It is in front of the frame of {two.name}: see that a hand passes beside its legs."
            return "fails", f"The frame of {two.name} is behind it: move it along the wall, or above the frame."
    for other in room.recesses:
        if other is not one and _overlap(one, other):
            return "fails", f"It runs into {other.name}: move one of them."
    return "passes", ""


def _past_an_edge(room: Room, one: Recess) -> str:
    left, right = room.start.value, (room.start + room.run).value
    if one.open_left.value < left or one.open_right.value > right:
        return "It passes the end of the pre-wall: move it along the wall, or make it narrower."
    if one.open_foot.value < 0 or one.open_head.value > room.top_of_steel.value:
        return f"It passes the {'floor' if one.open_foot.value < 0 else 'top of the pre-wall'}: move it, or make it lower."
    return ""


def _hidden(room: Room, one: Recess) -> str:
    """That another pre-wall in a corner stands before it; nothing where none does."""
    face = front_of(room)
    left = (face.tiled_left or room.start).value
    right, floor = left + face.tiled_width.value, room.finished_floor.value
    covered = {end: (deep.value, floor + high.value) for end, deep, high in face.hidden}
    for end, met in enumerate(room.meets):
        if met is not None:
            deep, high = covered.get(end, (0.0, math.inf))
            beside = one.left.value < left + deep if end == 0 else (one.left + one.width).value > right - deep
            if beside and one.bottom.value < high:
                return f"{met.name} stands before it: move it along the wall, or above that."
    return ""


def _overlap(one: Recess, other: Recess) -> bool:
    level = one.open_foot.value < other.open_head.value and other.open_foot.value < one.open_head.value
    return level and one.between(other.open_left.value, other.open_right.value)


def _deep(room: Room, one: Recess, depth: Figure, clip: Figure) -> Finding:
    """How deep a niche is against the void, less the pipes behind it."""
    most, what = room.depth, ""
    if room.corner is not None:
        forward = max(room.corner.behind(one.open_left.value), room.corner.behind(one.open_right.value))
        most = (room.depth - number(round(forward, 1), label="Wall comes forward behind it")).named("Void behind the niche")
    for run in (*room.pipes, *(run for run, _ in room.passing)):
        taken = _taken(one, run, clip) if room.corner is None and run in room.pipes else _in_front(one, run)
        if taken is not None and (room.depth - taken).value < most.value:
            most, what = (room.depth - taken).named(f"Void less {run.what}"), run.what
    state = judge(depth, None, most)
    message = ""
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        behind = f"{what} passes behind it" if what else "the wall is behind it"
        message = f"{show_length(depth.value - most.value)} too deep: {behind}. Make it shallower, or move it."
        whole = float(math.floor(most.value))
        if whole > 0:
            ways = (WayOut(f"Make it {show_length(whole)} deep.", f"{one.path}.depth", whole),)
    return Finding("Depth of the niche", _GROUP, state, depth, "Own rule", "common practice", None, most, message, one.name, ways)


def _in_front(one: Recess, run: PipeRun) -> Figure | None:
    """How far out a pipe comes behind the opening, by the way it lies: across a corner, or of another pre-wall; None where it is not."""
    half, out = run.outside / 2, -math.inf
    for (x1, y1, z1), (x2, y2, z2) in pairwise(run.route):
        across = one.between(min(x1, x2) - half, max(x1, x2) + half)
        if across and min(z1, z2) - half < one.open_head.value and one.open_foot.value < max(z1, z2) + half:
            out = max(out, y1, y2)
    return number(round(out + half, 1), label=f"Front of {run.what}") if math.isfinite(out) else None


def _taken(one: Recess, run: PipeRun, clip: Figure) -> Figure | None:
    """How much of the void a pipe behind the opening takes, from the wall: its distance, half its size, its clip; None where it is not."""
    half = max(run.outside, float(run.size)) / 2
    for (x1, z1), (x2, z2) in zip(run.points, run.points[1:], strict=False):
        across = one.between(min(x1, x2) - half, max(x1, x2) + half)
        if across and min(z1, z2) - half < one.open_head.value and one.open_foot.value < max(z1, z2) + half:
            own = Figure(2 * half, 2 * half, 2 * half, "mm", f"{run.what}, outside")
            return own + clip if run.from_wall is None else run.from_wall + own / 2
    return None
