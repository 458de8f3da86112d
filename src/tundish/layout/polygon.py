"""The walls of a room that is not a plain box, from their lengths and corners: laid out one after the other, and whether they close."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from tundish import measure
from tundish.figure import Figure, number
from tundish.layout.inputs import Inputs
from tundish.layout.walls import Point, Shape, WallSide
from tundish.survey.survey import Survey
from tundish.survey.wall import wall_letter

TOLD_FROM: Final = 10.0
"""Walls that close within a centimetre are measured as well as a tape measures."""
NOT_A_ROOM: Final = 500.0
"""Walls that miss one another by more are not drawn."""
SHORTEST: Final = 50.0


def polygon(survey: Survey, width: Figure, inputs: Inputs) -> Shape:
    """The room by its walls; where they make none, told, those walls in one line, so that all that is at them stays with its wall."""
    angles, given = _given(survey, width, inputs)
    return _closed(angles, given, inputs) or _in_line(angles, given, inputs.sure(survey.room, "depth", "survey.room"))


def _closed(angles: Sequence[float], given: Sequence[Figure | None], inputs: Inputs) -> Shape | None:
    count = len(given)
    if count < 3:  # noqa: PLR2004 - a triangle is the least
        _none(f"{count} walls do not make a room: at least 3 do. Add the missing ones, or leave their lengths blank", inputs)
        return None
    headings = [0.0]
    for angle in angles[1:]:
        headings.append(headings[-1] + 180.0 - angle)
    lengths = _solved(given, headings, inputs)
    if lengths is None:
        return None
    points = _laid(lengths, headings)
    out = math.hypot(*points[-1])
    last = wall_letter(count - 1)
    if out > TOLD_FROM:
        shown = measure.show_length(round(out))
        words = f"The walls do not close: {shown} mm out at the corner of {last} and A. Measure lengths and corners again"
        inputs.tell("survey.walls", words + _IN_LINE * (out > NOT_A_ROOM))
    corners = points[:-1]
    if out > NOT_A_ROOM or _crossed(corners, inputs) or _inside_out(corners, inputs):
        return None
    first = (count - 2) * 180.0 - sum(angles[1:])
    if not _SHARPEST <= first <= 360.0 - _SHARPEST:
        _none(f"The corner of {last} and A comes out at {first:g}°: measure the other corners again", inputs)
        return None
    return Shape(
        tuple(
            WallSide(
                wall_letter(place),
                corners[place],
                corners[(place + 1) % count],
                lengths[place],
                first if place == 0 else angles[place],
                headings[place],
            )
            for place in range(count)
        ),
        square=False,
    )


def _in_line(angles: Sequence[float], given: Sequence[Figure | None], depth: Figure) -> Shape:
    """The walls unrolled, one after the other; one that is not measured as long as the room is deep."""
    lengths = [depth.named(f"Wall {wall_letter(place)}, not measured") if each is None else each for place, each in enumerate(given)]
    ends = _laid(lengths, [0.0] * len(lengths))
    corners = (90.0, *angles[1:])
    return Shape(
        tuple(
            WallSide(wall_letter(place), ends[place], ends[place + 1], length, corners[place], 0.0) for place, length in enumerate(lengths)
        ),
        square=False,
    )


_SHARPEST: Final = 5.0
"""A corner as sharp as that is a mistake in the others."""


def _given(survey: Survey, width: Figure, inputs: Inputs) -> tuple[list[float], list[Figure | None]]:
    """Corners and lengths as put in; a room of four square corners fills its blanks from the wall opposite."""
    angles = [0.0]
    lengths: list[Figure | None] = [width]
    for place, side in enumerate(survey.walls):
        where = f"survey.walls.{place}"
        angles.append(inputs.sure(side, "corner", where).value)
        lengths.append(inputs.number(side, "length", where))
    if len(lengths) == 4 and all(angle == 90.0 for angle in angles[1:]):  # noqa: PLR2004
        depth = lengths[1] or lengths[3] or inputs.sure(survey.room, "depth", "survey.room")
        lengths = [width, lengths[1] or depth, lengths[2] or width, lengths[3] or depth]
    return angles, lengths


def _solved(lengths: Sequence[Figure | None], headings: Sequence[float], inputs: Inputs) -> list[Figure] | None:
    """Every length, one or two that are blank reckoned from the others."""
    blank = [place for place, each in enumerate(lengths) if each is None]
    if not blank:
        return [each for each in lengths if each is not None]
    rest = _sum([(each.value, heading) for each, heading in zip(lengths, headings, strict=True) if each is not None])
    names = " and ".join(wall_letter(place) for place in blank)
    ways = [_way(headings[place]) for place in blank]
    if len(blank) == 1:
        found = [-(rest[0] * ways[0][0] + rest[1] * ways[0][1])]
    else:
        turn = ways[0][0] * ways[1][1] - ways[0][1] * ways[1][0]
        if len(blank) > 2 or abs(turn) < 1e-6:  # noqa: PLR2004
            _none(f"The lengths of walls {names} are blank: measure all but two, and not two that run the same way", inputs)
            return None
        found = [
            (-rest[0] * ways[1][1] + rest[1] * ways[1][0]) / turn,
            (-rest[1] * ways[0][0] + rest[0] * ways[0][1]) / turn,
        ]
    if min(found) < SHORTEST:
        _none(f"As the others are measured, no length is left for wall {names}: measure it, and its corners, again", inputs)
        return None
    made = {
        place: number(round(value, 1), label=f"Wall {wall_letter(place)}, by the others") for place, value in zip(blank, found, strict=True)
    }
    return [made[place] if each is None else each for place, each in enumerate(lengths)]


def _laid(lengths: Sequence[Figure], headings: Sequence[float]) -> list[Point]:
    points: list[Point] = [(0.0, 0.0)]
    for length, heading in zip(lengths, headings, strict=True):
        way, (x, y) = _way(heading), points[-1]
        points.append((round(x + length.value * way[0], 3), round(y + length.value * way[1], 3)))
    return points


def _crossed(corners: Sequence[Point], inputs: Inputs) -> bool:
    count = len(corners)
    ends = [(corners[place], corners[(place + 1) % count]) for place in range(count)]
    for one, other in _abreast(ends):
        (a, b), (c, d) = ends[one], ends[other]
        if (other - one) % count in {1, count - 1} or not _beside(a, b, c, d):
            continue
        if _turn(a, b, c) * _turn(a, b, d) <= 0 and _turn(c, d, a) * _turn(c, d, b) <= 0:
            _none(f"Walls {wall_letter(one)} and {wall_letter(other)} cross: measure them, and the corners between, again", inputs)
            return True
    return False


def _abreast(ends: Sequence[tuple[Point, Point]]) -> Iterator[tuple[int, int]]:
    """The pairs of walls that share some of their way along wall A, the one that comes first in the room first."""
    behind: list[int] = []
    for place in sorted(range(len(ends)), key=lambda each: min(ends[each][0][0], ends[each][1][0])):
        left = min(ends[place][0][0], ends[place][1][0])
        behind = [each for each in behind if max(ends[each][0][0], ends[each][1][0]) >= left]
        yield from ((min(each, place), max(each, place)) for each in behind)
        behind.append(place)


def _inside_out(corners: Sequence[Point], inputs: Inputs) -> bool:
    area = sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    if area > 0:
        return False
    _none("The walls go round the wrong way: B is on the right of wall A, and corners are measured inside the room", inputs)
    return True


def _beside(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the boxes round two lines meet: the two parts of a wall beside a chimney breast lie in one line and do not."""
    return all(min(a[i], b[i]) <= max(c[i], d[i]) and min(c[i], d[i]) <= max(a[i], b[i]) for i in (0, 1))


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _way(heading: float) -> Point:
    return round(math.cos(math.radians(heading)), 12), round(math.sin(math.radians(heading)), 12)


def _sum(parts: Sequence[tuple[float, float]]) -> Point:
    ways = [(length * _way(heading)[0], length * _way(heading)[1]) for length, heading in parts]
    return sum(x for x, _ in ways), sum(y for _, y in ways)


def _none(words: str, inputs: Inputs) -> None:
    inputs.tell("survey.walls", words + _IN_LINE)


_IN_LINE: Final = ". Until then the walls are drawn in one line"
