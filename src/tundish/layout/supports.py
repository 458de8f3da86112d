"""Where the pre-wall stands: the clear gaps between its frames, and the uprights in them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number
from tundish.layout.makers import from_sheet, half
from tundish.layout.room import Placed
from tundish.layout.widths import Run


@dataclass(frozen=True, slots=True)
class FrameSpan:
    """A frame along the wall: its edges and the centres of its two legs, from the left wall."""

    left: Figure
    left_leg: Figure
    right_leg: Figure
    right: Figure


@dataclass(frozen=True, slots=True)
class Gap:
    """A clear stretch of the run; `after` and `before` are the frames at its ends, None where the run itself ends there.

    `joined`: of its left and right end, whether the run goes on there into another; `backs`: where another as high stands against it;
    `posts`: where else an upright has to stand.
    """

    left: Figure
    right: Figure
    after: FrameSpan | None
    before: FrameSpan | None
    joined: tuple[bool, bool] = (False, False)
    backs: tuple[Figure | None, Figure | None] = (None, None)
    posts: tuple[Figure, ...] = ()

    @property
    def clear(self) -> float:
        """How wide it is."""
        return self.right.value - self.left.value


@dataclass(frozen=True, slots=True)
class Stand:
    """What stands in one gap: uprights to be cut, left to right, by their centres from the left wall, `step` apart where all are alike.

    `on`: the head of the frame that they stand on, None on the floor.
    """

    gap: Gap
    uprights: tuple[Figure, ...]
    step: Figure | None
    on: Figure | None = None


@dataclass(frozen=True, slots=True)
class Limits:
    """How uprights stand: half their face; how near one may stand to a leg; how far apart at most."""

    middle: Figure
    near: float
    apart: float


def limits_of(bar: Item, book: Book) -> Limits:
    """The limits of the rule book, for uprights cut from this bar."""
    middle = half(bar, "face", "Half the face of an upright")
    return Limits(middle, book.figure("prewall.near").value, max(book.figure("prewall.upright_centres").value, CLOSEST))


def frames_of(placed: Sequence[Placed]) -> tuple[FrameSpan, ...]:
    """The frames along the wall, by their left edges."""
    return tuple(_frame(each) for each in sorted(placed, key=lambda one: one.left))


def gaps_of(run: Run, frames: Sequence[FrameSpan]) -> tuple[Gap, ...]:
    """The clear stretches of the run, left to right; a frame fills its whole width."""
    made = []
    at, after = run.start, None
    for each in frames:
        if each.left.value > at.value:
            first = after is None
            back = run.backs[0] if first else None
            made.append(Gap(at, each.left, after, each, (first and run.joined[0], False), (back, None), run.posts))
        if each.right.value > at.value:
            at, after = each.right, each
    if run.end.value > at.value:
        first = after is None
        joined, backs = (first and run.joined[0], run.joined[1]), (run.backs[0] if first else None, run.backs[1])
        made.append(Gap(at, run.end, after, None, joined, backs, run.posts))
    return tuple(made)


def in_steel(gap: Gap, limits: Limits) -> Stand:
    """Uprights of strut: at an end of the run, and evenly from there, or from one frame's leg, to the next frame's leg."""
    legs = _legs(gap)
    ends = _ends(gap, legs, limits)
    return _stand(gap, ends, legs, limits)


def in_timber(gap: Gap, limits: Limits) -> Stand:
    """Studs: as uprights, but from a stud beside a frame, where there is room for one, instead of the frame's leg."""
    face = 2 * limits.middle.value
    left = right = None
    if gap.after is not None and gap.clear >= face:
        left = (gap.left + limits.middle).named("Stud right of the frame")
    if gap.before is not None and gap.clear >= (face if left is None else 2 * face):
        right = (gap.right - limits.middle).named("Stud left of the frame")
    after, before = _legs(gap)
    legs = (after if left is None else None, before if right is None else None)
    ends = _ends(gap, (left or legs[0], right or legs[1]), limits)
    return _stand(gap, (ends[0] or left, ends[1] or right), legs, limits)


def supports_of(stands: Sequence[Stand], frames: Sequence[FrameSpan]) -> tuple[Figure, ...]:
    """Everything that a joint between boards may land on, left to right: the frames are made to be boarded over."""
    uprights = [upright for stand in stands for upright in stand.uprights]
    legs = [leg for frame in frames for leg in (frame.left_leg, frame.right_leg)]
    return tuple(sorted((*uprights, *legs), key=lambda each: each.value))


CLOSEST: Final = 50.0
"""However the rule book is overruled, uprights do not stand closer."""
_Pair = tuple[Figure | None, Figure | None]
_DIGITS: Final = 9


def _frame(placed: Placed) -> FrameSpan:
    frame, centre, name = placed.frame, placed.centre, placed.name
    edge = half(frame, "width", "Half the frame's width")
    leg = from_sheet(frame, edge.value - frame.sizes["leg"][0] / 2, "Centre of frame to its leg")
    return FrameSpan(
        (centre - edge).named(f"Left edge of frame, {name}"),
        (centre - leg).named(f"Left leg of frame, {name}"),
        (centre + leg).named(f"Right leg of frame, {name}"),
        (centre + edge).named(f"Right edge of frame, {name}"),
    )


def _spaces(step: Figure, count: int) -> Figure:
    return step if count == 1 else (step * number(count, "", "Spaces along")).named(f"{count} spaces")


def _legs(gap: Gap) -> _Pair:
    return (gap.after.right_leg if gap.after else None), (gap.before.left_leg if gap.before else None)


def _ends(gap: Gap, beside: _Pair, limits: Limits) -> _Pair:
    """The uprights at the ends of the run, but none near what stands there already; where it is joined, wherever there is room.

    Where another as high stands against it, half of the upright is under the edge of the boards and half behind the other: pipes pass
    between that and the wall.
    """
    middle, (before, after) = limits.middle, (beside[1], beside[0])
    near = [0.0 if joined and gap.clear >= 2 * middle.value else limits.near for joined in gap.joined]
    left = (gap.backs[0] or gap.left + middle).named("Upright at the left end") if gap.after is None else None
    right = (gap.backs[1] or gap.right - middle).named("Upright at the right end") if gap.before is None else None
    if left is not None and before is not None and before.value - left.value <= near[0]:
        left = None
    if right is not None and after is not None and right.value - after.value <= near[1]:
        right = None
    return left, right


def _stand(gap: Gap, ends: _Pair, legs: _Pair, limits: Limits) -> Stand:
    first, last = ends[0] or legs[0], ends[1] or legs[1]
    between: list[Figure] = []
    step = None
    if first is not None and last is not None:
        posts = [each for each in gap.posts if first.value + limits.near < each.value < last.value - limits.near]
        for one, other in pairwise((first, *posts, last)):
            step, spaced = _spaced(one, other, limits.apart)
            between += [*spaced, *([other.named("Upright behind a lower pre-wall")] if other is not last else [])]
        step = None if posts else step
    uprights = [each for each in (ends[0], *between, ends[1]) if each is not None]
    return Stand(gap, tuple(uprights), step)


def _spaced(first: Figure, last: Figure, apart: float) -> tuple[Figure, list[Figure]]:
    """How far apart uprights stand between two that are given, and where."""
    spaces = math.ceil(round((last.value - first.value) / apart, _DIGITS))
    step = last - first if spaces <= 1 else ((last - first) / number(spaces, "", "Even spaces")).named("Uprights apart")
    return step, [(first + _spaces(step, place)).named("Upright between") for place in range(1, spaces)]
