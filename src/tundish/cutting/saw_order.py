"""The order in which a person saws a sheet: every cut from edge to edge, the part it takes off, and what then lies on the bench."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tundish import measure
from tundish.cutting.plan import KEPT_SIDE, Place, Rect, SheetCut, SheetPlan

_NEAR: Final = 0.15
"""Places are planned to a tenth, mm: what is over by less is not sawn off."""
_CLOSE: Final = 0.01
_EDGES: Final = ("the left", "the foot")


@dataclass(frozen=True, slots=True)
class Stroke:
    """One cut through a part of the sheet: across its length (`axis` 0) or its width, `at` mm from the part's left or lower edge."""

    part: Rect
    axis: int
    at: float
    frees: tuple[int, ...]
    """Pieces that are finished by it."""


Part = Place | Rect


def strokes(plan: SheetPlan, cut: SheetCut) -> tuple[Stroke, ...]:
    """Every cut of one sheet, in an order in which each runs from edge to edge of the part in hand; trims of the edges come first."""
    parts: list[Part] = [*cut.places, *cut.remainders]
    sheet = plan.stock[cut.sheet]
    whole = Rect(plan.trim, plan.trim, sheet.length - 2 * plan.trim, sheet.width - 2 * plan.trim)
    return tuple(_strokes(whole, parts, plan.kerf))


def left_after(part: Rect, inside: Sequence[Part], kerf: float, piece: Place) -> tuple[Rect, ...]:
    """What is still whole of a part once one piece in it is sawn out: every stroke through what holds the piece is made."""
    whole = [part]
    for stroke in _strokes(part, inside, kerf):
        if holds(stroke.part, piece):
            near, far = _halves(stroke.part, stroke.axis, stroke.at, kerf)
            whole = [one for one in whole if not holds(one, piece)] + [near, far]
    return tuple(one for one in whole if not holds(one, piece) and min(one.length, one.width) >= 1)


def saw_order(plan: SheetPlan, cut: SheetCut, marks: Sequence[str]) -> Iterator[str]:
    """The strokes in words, numbered, each with the size of the part that it goes through and the marks of the pieces that it finishes."""
    show = measure.show_length
    if plan.trim:
        yield f"Trim {show(plan.trim)} off all four edges."
    for number, stroke in enumerate(strokes(plan, cut), 1):
        part = "Whole sheet" if number == 1 else f"The {show(stroke.part.length)} × {show(stroke.part.width)}"
        freed = " and ".join(marks[one] for one in stroke.frees)
        yield f"{number}. {part} at {show(stroke.at)} from {_EDGES[stroke.axis]}{f', gives {freed}' if freed else ''}."


def _strokes(part: Rect, inside: Sequence[Part], kerf: float) -> Iterator[Stroke]:
    """First the cut nearest to the near edge that parts what is wanted inside; then either side in turn; the way with the fewest cuts."""
    wanted = [one for one in inside if _wanted(one)]
    if not wanted or (len(inside) == 1 and not _trims(part, inside)):
        return
    if len(wanted) == 1 and max(wanted[0].x - part.x, wanted[0].y - part.y) < _NEAR:
        yield from _last_trim(part, wanted[0], kerf)
        return
    ways = [(axis, groups) for axis in (0, 1) if len(groups := _groups(inside, axis)) > 1]
    if ways:
        yield from min((tuple(_apart(part, axis, groups, kerf)) for axis, groups in ways), key=len)


def _apart(part: Rect, axis: int, groups: Sequence[Sequence[Part]], kerf: float) -> Iterator[Stroke]:
    ends = [_end(group, axis) for group in groups]
    left = part
    for place, (group, after) in enumerate(pairwise(groups)):
        at = ends[place] - _start(left, axis)
        near, far = _halves(left, axis, at, kerf)
        last = _freed(far, after) if place == len(groups) - 2 else ()
        yield Stroke(left, axis, round(at, 3), (*_freed(near, group), *last))
        yield from _strokes(near, group, kerf)
        left = far
    yield from _strokes(left, groups[-1], kerf)


def _last_trim(part: Rect, one: Part, kerf: float) -> Iterator[Stroke]:
    """A lone piece that is smaller than its part: what is over comes off."""
    for axis in (0, 1):
        size = (one.length, one.width)[axis]
        if (part.length, part.width)[axis] - size > _NEAR:
            near, _ = _halves(part, axis, size, kerf)
            yield Stroke(part, axis, round(size, 3), _freed(near, [one]))
            part = near


def _wanted(one: Part) -> bool:
    """Whether it is a piece, or a remainder that is kept: scrap is not sawn up."""
    return isinstance(one, Place) or min(one.length, one.width) >= KEPT_SIDE


def _trims(part: Rect, inside: Sequence[Part]) -> bool:
    return any(part.length - one.length > _NEAR or part.width - one.width > _NEAR for one in inside if isinstance(one, Place))


def inside_of(part: Rect, cut: SheetCut) -> tuple[Part, ...]:
    """What of a sheet's plan lies within a part of it."""
    every: tuple[Part, ...] = (*cut.places, *cut.remainders)
    return tuple(one for one in every if holds(part, one))


def holds(part: Rect, piece: Part) -> bool:
    """Whether a piece lies within a part, to a hundredth."""
    low = min(piece.x - part.x, piece.y - part.y)
    high = min(part.x + part.length - piece.x - piece.length, part.y + part.width - piece.y - piece.width)
    return min(low, high) >= -_CLOSE


def _freed(part: Rect, group: Sequence[Part]) -> tuple[int, ...]:
    if len(group) != 1 or not isinstance(group[0], Place) or _trims(part, group):
        return ()
    return (group[0].piece,)


def _groups(parts: Sequence[Part], axis: int) -> list[list[Part]]:
    groups: list[list[Part]] = []
    end = -math.inf
    for one in sorted(parts, key=lambda each: _start(each, axis)):
        if _start(one, axis) >= end - _NEAR:
            groups.append([])
        groups[-1].append(one)
        end = max(end, _end([one], axis))
    return groups


def _start(part: Part, axis: int) -> float:
    return part.y if axis else part.x


def _end(group: Sequence[Part], axis: int) -> float:
    return max(_start(one, axis) + (one.width if axis else one.length) for one in group)


def _halves(part: Rect, axis: int, at: float, kerf: float) -> tuple[Rect, Rect]:
    if axis:
        return Rect(part.x, part.y, part.length, at), Rect(part.x, part.y + at + kerf, part.length, max(0.0, part.width - at - kerf))
    return Rect(part.x, part.y, at, part.width), Rect(part.x + at + kerf, part.y, max(0.0, part.length - at - kerf), part.width)
