"""Where a check is missed, drawn on the wall: the gap in red lead, with what it is short of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Final

from tundish import measure
from tundish.documents.drawing import Line, Mark, Words
from tundish.documents.pipe_drawing import on_wall
from tundish.layout.room import Placed, Room
from tundish.rules.rule import Finding

SIDE: Final = "space/centre-to-wall"
BETWEEN: Final = "frames/neighbours"
FALL: Final = "drainage/branch-fall"
FALLS: Final = frozenset({FALL, "drainage/waste-fall"})
"""The rules whose room to spare is what a fall has to spare."""
_TICK: Final = 22.0
_TOWARDS_STACK: Final = 0.75
"""Where along a branch its shortfall is written: away from the ware."""
_CLEAR: Final = 38.0
_OVER: Final = 70.0
"""How far over the top of the ware a missed gap is drawn."""


def shortfalls(room: Room, findings: Iterable[Finding], line: float) -> Iterator[Mark]:
    """Marks for every check of a room that is missed and can be shown as a gap or a pipe; their words are so high, mm of the wall."""
    missed = [each for each in findings if each.state in {"fails", "look"} and (each.spare or 0) < 0]
    for finding in missed:
        for placed in room.placed:
            if finding.place == f"{room.name}, {placed.name}":
                yield from _of_one(room, placed, finding, line)
        for left, right in pairwise(room.placed):
            if finding.rule == BETWEEN and finding.place == f"{room.name}, {left.name} and {right.name}":
                yield from _between((left, right), finding, line)


def clear_of_line(line: float) -> float:
    """How far over a line words so high must stand, mm, to be clear of it."""
    return max(_CLEAR, 0.63 * line)


def _of_one(room: Room, placed: Placed, finding: Finding, line: float) -> Iterator[Mark]:
    x = placed.centre.value
    if finding.rule == SIDE:
        wall = 0.0 if x <= room.width.value / 2 else room.width.value
        yield from _gap((x, wall), placed.figures["top"].value + _OVER, finding, line)
    elif finding.rule == FALL:
        for pipe in (each for each in room.pipes_of("soil") if each.serves == placed.key):
            seen = [((x1, z1), (x2, z2)) for (x1, _, z1), (x2, _, z2) in on_wall(room, pipe)]
            if not seen:
                continue
            yield from (Line(*one, *other, "fails") for one, other in seen if one != other)
            (x1, z1), (x2, z2) = seen[0][0], seen[-1][1]
            at, level = x1 + (x2 - x1) * _TOWARDS_STACK, max(z1, z2) + pipe.size / 2 + clear_of_line(line)
            yield Words(at, level, f"fall {_short(finding)}", 2.6, "fails", bold=True, loose="near")


def _between(pair: tuple[Placed, Placed], finding: Finding, line: float) -> Iterator[Mark]:
    left, right = pair
    of_ware = finding.title.startswith("Appliance")
    half = (left.ware.bare("width") / 2, right.ware.bare("width") / 2)
    x1, x2 = (left.centre.value + half[0], right.centre.value - half[1]) if of_ware else (left.right, right.left)
    level = max(left.figures["top"].value, right.figures["top"].value) + _OVER
    yield from _gap((x1, x2), level if of_ware else level + 2 * _OVER, finding, line)


def _gap(ends: tuple[float, float], level: float, finding: Finding, line: float) -> Iterator[Mark]:
    x1, x2 = sorted(ends)
    yield Line(x1, level, x2, level, "fails")
    for x in (x1, x2):
        yield Line(x, level - _TICK, x, level + _TICK, "fails")
    yield Words((x1 + x2) / 2, level + clear_of_line(line), _short(finding), 2.6, "fails", bold=True, loose="near")


def _short(finding: Finding) -> str:
    """By how much: 10 short, or 4.2 over where there is too much."""
    spare = -(finding.spare or 0.0)
    over = finding.has is not None and finding.most is not None and finding.has.value > finding.most.value
    return f"{measure.show_number(spare, 0 if spare == round(spare) else 1)} {'over' if over else 'short'}"
