"""The frame of a pre-wall round what is let into it: an upright beside each opening, trimmers over and under it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from tundish import measure
from tundish.figure import Figure, number
from tundish.layout.framing import Stuff
from tundish.layout.recesses import Recess
from tundish.layout.room import Member, Placed
from tundish.layout.supports import FrameSpan, Gap, Limits, Stand

_LEAST: Final = 30.0
"""Trimmers shorter than this are left out: there is nothing to hold."""


def stands_round(
    stands: Sequence[Stand], recesses: Sequence[Recess], placed: Sequence[Placed], frames: Sequence[FrameSpan], limits: Limits
) -> tuple[Stand, ...]:
    """The same uprights, with one each side of every opening, on the floor or on the head of the frame that it is over.

    An upright between others that stands near moves there where those beside it stay near enough; else the new one doubles it.
    """
    if not recesses:
        return tuple(stands)
    made = [_in_gap(stand, recesses, limits) for stand in stands]
    by_left = sorted(placed, key=lambda one: one.left)
    return (*made, *(over for one, frame in zip(by_left, frames, strict=True) for over in _over(one, frame, recesses, limits)))


def trimmers(stuff: Stuff, stands: Sequence[Stand], placed: Sequence[Placed]) -> Iterator[Member]:
    """R1, R2… under and over each opening, between the uprights or frames next to it."""
    count = 0
    for recess in stuff.outline.recesses:
        left, right = _edges(stuff, recess, stands, placed)
        length = (right - left).named(f"Trimmer of {recess.name}")
        if length.value < _LEAST:
            continue
        for z, words in ((recess.open_foot.value - stuff.flat.value, "under"), (recess.open_head.value, "over")):
            count += 1
            where = f"{words} {recess.name}, from {measure.show_length(left.value)} from left wall"
            y = stuff.outline.depth.value - stuff.rail[1]
            yield Member(f"R{count}", "trimmer", stuff.role, length, "x", left.value, y, z, stuff.rail, where)


def _in_gap(stand: Stand, recesses: Sequence[Recess], limits: Limits) -> Stand:
    uprights = list(stand.uprights)
    half = limits.middle.value
    for recess in recesses:
        for beside in _beside(recess, limits):
            x = beside.value
            fits = stand.gap.left.value <= x - half and x + half <= stand.gap.right.value
            if fits and not any(abs(x - each.value) < 2 * half - 1 and _fixed(each, stand.gap, half) for each in uprights):
                uprights = _moved(uprights, beside, stand.gap, limits)
    return stand if uprights == list(stand.uprights) else replace(stand, uprights=tuple(uprights), step=None)


def _moved(uprights: list[Figure], beside: Figure, gap: Gap, limits: Limits) -> list[Figure]:
    """The uprights with one more; without the one near it that it may stand for."""
    every = sorted((*uprights, beside), key=lambda each: each.value)
    face = 2 * limits.middle.value
    near = [each for each in uprights if abs(each.value - beside.value) < limits.near and not _fixed(each, gap, limits.middle.value)]
    for old in near:
        fewer = [each for each in every if each is not old]
        clash = abs(old.value - beside.value) < face
        if clash or all(other.value - one.value <= limits.apart for one, other in pairwise(fewer)):
            every = fewer
    return every


def _fixed(upright: Figure, gap: Gap, half: float) -> bool:
    """Whether it stands at an end of its gap, or stands beside an opening already."""
    at_end = upright.value - half <= gap.left.value + 1 or upright.value + half >= gap.right.value - 1
    return at_end or upright.label.startswith("Upright beside")


def _over(one: Placed, frame: FrameSpan, recesses: Sequence[Recess], limits: Limits) -> Iterator[Stand]:
    """Uprights on the head of a frame, beside the openings above it."""
    head, half = one.figures["frame_top"], limits.middle.value
    found = [
        beside
        for recess in recesses
        if recess.open_foot.value >= head.value
        for beside in _beside(recess, limits)
        if one.left < beside.value + half and beside.value - half < one.right
    ]
    if found:
        yield Stand(Gap(frame.left, frame.right, frame, frame), tuple(sorted(found, key=lambda each: each.value)), None, head)


def _beside(recess: Recess, limits: Limits) -> tuple[Figure, Figure]:
    left = (recess.open_left - limits.middle).named(f"Upright beside {recess.name}, left")
    return left, (recess.open_right + limits.middle).named(f"Upright beside {recess.name}, right")


def _edges(stuff: Stuff, recess: Recess, stands: Sequence[Stand], placed: Sequence[Placed]) -> tuple[Figure, Figure]:
    """Between what its trimmers reach: the nearest upright or frame on either side, else the ends of the run."""
    run = stuff.outline.run
    middle = number(stuff.upright[0] / 2, label="Half the face of an upright")
    uprights = [each for stand in stands for each in stand.uprights]
    beside = [one for one in placed if one.figures["frame_top"].value > recess.open_foot.value]
    half = {one.key: (one.frame.size("width") / 2).named("Half the frame's width") for one in beside}
    lefts = [run.start, *(each + middle for each in uprights), *(one.centre + half[one.key] for one in beside)]
    rights = [run.end, *(each - middle for each in uprights), *(one.centre - half[one.key] for one in beside)]
    low, high = recess.open_left.value + _NEAR, recess.open_right.value - _NEAR
    left = max((each for each in lefts if each.value <= low), key=lambda each: each.value, default=run.start)
    return left, min((each for each in rights if each.value >= high), key=lambda each: each.value, default=run.end)


_NEAR: Final = 0.5
