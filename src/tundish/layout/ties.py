"""Wall ties: from the wall, as it leans or comes forward beside a corner, to the back of an upright."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from tundish.figure import Figure, number, together
from tundish.layout.framing import Stuff
from tundish.layout.room import Member


def wall_ties(stuff: Stuff, straight: Figure, foot: float, places: Iterable[tuple[Member, Figure]]) -> Iterator[Member]:
    """W1, W2… at each upright and height of the tie's underside, where there is room for one.

    `straight`: how long it is at a plumb wall; `foot`: how far what holds it stands off the wall.
    """
    count, corner = 0, stuff.outline.standing.corner
    for upright, level in places:
        length, starts = straight, foot
        if corner is not None:
            back = max(corner.behind(upright.x), corner.behind(upright.x + upright.section[0]))
            length, starts = length - number(round(back, 1), label="Wall behind it comes forward"), starts + back
        leans = _leans(stuff, level + stuff.upright[1] / 2)
        if leans is not None:
            length, starts = length - leans, starts + leans.value
        if length.value > 0:
            count += 1
            yield Member(
                f"W{count}", "wall tie", stuff.role, length.named("Wall tie"), "y",
                upright.x, starts, level.value, stuff.upright, f"at {upright.mark}",
            )  # fmt: skip


def _leans(stuff: Stuff, middle: Figure) -> Figure | None:
    """How far the wall has come in at the middle of a tie, over all that is still open; less than a saw's error holds none up."""
    lean, top = stuff.outline.lean, stuff.outline.tops.prewall
    if lean is None or top.value <= 0:
        return None
    share = (middle / top).named("Height of the tie in the pre-wall's")
    leans = together((lean * share).named("Wall leans in, at the tie"))
    return replace(leans, tbc=False) if lean.settled and leans.high - leans.low < _SAWN else leans


_SAWN: Final = 0.5
"""No bar is cut nearer, mm."""
