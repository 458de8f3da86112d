"""Where a pre-wall starts and ends along its wall, and whether its ends stand at a wall or are free."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from tundish import measure
from tundish.figure import Figure, largest, number
from tundish.layout.corner import Across
from tundish.layout.inputs import Inputs
from tundish.layout.meeting import corner_of
from tundish.layout.standing import Standing

SHORTEST: Final = 300.0
"""No pre-wall is shorter: nothing hangs on less."""
_TOUCHES: Final = 1.0


@dataclass(frozen=True, slots=True)
class Run:
    """The pre-wall along the wall; `at_wall` says of its left and its right end whether it stands at a side wall, or is joined there.

    `backs`: where another as high stands against it, the frame front of that, along the wall. `posts`: where an upright has to stand
    besides, behind the front of a lower one that stops against it aslant.
    """

    start: Figure
    length: Figure
    end: Figure
    at_wall: tuple[bool, bool]
    joined: tuple[bool, bool] = (False, False)
    backs: tuple[Figure | None, Figure | None] = (None, None)
    posts: tuple[Figure, ...] = ()


def run_of(standing: Standing, inset: Figure, inputs: Inputs) -> Run:
    """Start, length and end of the pre-wall; blank: to the right-hand wall. `inset`: how deep its rails lie."""
    run = _across(standing, standing.corner, inset) if standing.corner is not None else _along(standing, inset, inputs)
    joined = standing.joins[0] is not None, standing.joins[1] is not None
    backs = _backs(run, standing, left=True), _backs(run, standing, left=False)
    return replace(run, joined=joined, backs=backs, posts=tuple(_posts(standing)))


def _along(standing: Standing, inset: Figure, inputs: Inputs) -> Run:
    prewall, at, width = standing.prewall, standing.at, standing.side.length
    depth = inputs.sure(prewall, "depth", at)
    left, right = (corner_of(standing, depth, inset, left=first) for first in (True, False))
    start = inputs.sure(prewall, "from_left", at)
    at_left = start.value <= max(0.0, left.offset.value)
    if at_left and left.offset.value:
        start = left.offset.named(start.label)
    if start.value > width.value - SHORTEST:
        shown = measure.show_length(start.value), measure.show_length(width.value)
        inputs.tell(f"{at}.from_left", f"A pre-wall that starts at {shown[0]} has no room in {shown[1]}: start it further left")
        start = number(0, label=start.label)
    length = inputs.number(prewall, "run", at)
    last = (width - right.offset).named("Right-hand end of pre-wall") if right.offset.value else width
    if length is None:
        length = _to_the_wall(last, start)
        return Run(start, length, last, (at_left and left.closed, right.closed))
    end = (start + length).named("Right-hand end of pre-wall")
    if right.offset.value and end.value > last.value:
        end, length = last, _to_the_wall(last, start)
    return Run(start, length, end, (at_left and left.closed, right.closed and end.value >= last.value - _TOUCHES))


def _backs(run: Run, standing: Standing, *, left: bool) -> Figure | None:
    """The frame front of another as high that stands against this one in the corner at that end."""
    met = standing.meets[0 if left else 1]
    if met is None or not (met.through and met.level):
        return None
    at = run.start + met.depth if left else run.end - met.depth
    return at.named(f"Frame front of {met.name}")


def _posts(standing: Standing) -> Iterator[Figure]:
    """Where the fronts of lower runs come to one across a corner, along it: half of the upright is under the edge of the boards."""
    for met, left in zip(standing.meets, (True, False), strict=True):
        if standing.corner is not None and met is not None and met.against is not None:
            along = met.against.along
            yield along if left else (standing.corner.run - along).named(along.label)


def _across(standing: Standing, corner: Across, deep: Figure) -> Run:
    """Across a corner rails cut square, so deep, end where their back edge meets the walls; uprights stand within them.

    Where a run along the wall joins it they go to where the fronts meet, behind which the void opens.
    """
    inset = (deep * number(round(math.tan(math.radians(corner.half)), 6), "", "Walls close in behind the front")).named(
        "Front to end of steel"
    )
    left, right = (join.along if join is not None else inset for join in standing.joins)
    length = (corner.run - left - right).named("Length of run")
    return Run(left, length, (left + length).named("Right-hand end of pre-wall"), (True, True))


def _to_the_wall(width: Figure, start: Figure) -> Figure:
    left = (width - start).named("Length of run")
    return left if left.low >= SHORTEST else largest(left, number(SHORTEST, label="Shortest pre-wall"), label="Length of run")
