"""A wall's drawing with what is set out on it: running widths from the left wall under it, heights from the bare floor beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from tundish import measure
from tundish.documents.drawing import Drawing, Line, Mark, Words, scales
from tundish.documents.rod import marks_of, rod
from tundish.documents.wall_drawing import ALL, WALL, elevation
from tundish.figure import Figure
from tundish.layout.room import Room

WIDE: Final = 186.0
HIGH: Final = 150.0
"""How wide and how high a drawing can be on paper, mm: what its words take follows from its scale."""
LETTER: Final = 3.5
"""From one figure to the next, mm of paper."""
_GRACE: Final = 1e-6
_LEAD: Final = 4.0
_LONG: Final = 13.0
_SIZE: Final = 2.4
_LINE: Final = 3.0
"""How high a line of words is, mm of paper."""
_TRIES: Final = 6


def on_the_wall(room: Room) -> Drawing:
    """The elevation with running widths and heights, spread for the scale that all of it comes to."""
    drawing, paper = elevation(room), 0.0
    for _ in range(_TRIES):
        _, _, wide, high = drawing.extent
        needed = max(wide / WIDE, high / HIGH)
        if needed <= paper:
            break
        paper = next(scales(needed - _GRACE))
        drawing = _at_scale(room, paper)
    return drawing


def _at_scale(room: Room, paper: float) -> Drawing:
    """The same where so many millimetres of the wall are one of paper."""
    drawing = elevation(room, replace(ALL, line=max(ALL.line, _LINE * paper)))
    left, low, wide, high = drawing.extent
    under, beside = low - 2 * paper, room.width.value + WALL
    marks = (*drawing.marks, *_widths(room, under, paper), *_heights(room, beside, paper))
    right = max(left + wide, beside + (_LEAD + 20) * paper)
    base = under - (_LEAD + _LONG) * paper
    return Drawing(drawing.title, marks, (left, base, right - left, low + high - base), drawing.pieces)


def spread(places: Sequence[float], apart: float) -> tuple[float, ...]:
    """The places, rising, moved as little as keeps them so far apart."""
    groups: list[list[float]] = []
    for place in places:
        groups.append([place])
        while len(groups) > 1 and _first(groups[-1], apart) - _last(groups[-2], apart) < apart:
            last = groups.pop()
            groups[-1] += last
    return tuple(_first(group, apart) + number * apart for group in groups for number in range(len(group)))


def _first(group: Sequence[float], apart: float) -> float:
    return sum(group) / len(group) - (len(group) - 1) * apart / 2


def _last(group: Sequence[float], apart: float) -> float:
    return _first(group, apart) + (len(group) - 1) * apart


def _widths(room: Room, level: float, paper: float) -> Iterator[Mark]:
    stations = {0.0: False, room.width.value: False}
    for placed in room.framed:
        stations |= {placed.left: False, placed.right: False}
    bold = {placed.centre.value for placed in room.placed}
    places = sorted({*stations, *bold})
    yield Line(places[0], level, places[-1], level, "dimension")
    for place, shown in zip(places, spread(places, LETTER * paper), strict=True):
        yield Line(place, level + paper, place, level - paper, "dimension")
        yield Line(place, level - paper, shown, level - _LEAD * paper, "dimension")
        at = level - (_LEAD + 1) * paper
        yield Words(shown, at - _LONG / 2 * paper, measure.show_length(place), _SIZE, "dimension", bold=place in bold, turned=True)


def _heights(room: Room, edge: float, paper: float) -> Iterator[Mark]:
    found = {round(figure.value): figure for figure in _marked(room) if figure.value > 0}
    places = sorted(found)
    for place, shown in zip(places, spread([float(each) for each in places], LETTER * paper), strict=True):
        figure = found[place]
        yield Line(edge, figure.value, edge + paper, figure.value, "dimension")
        yield Line(edge + paper, figure.value, edge + _LEAD * paper, shown, "dimension")
        words = measure.show_length(figure.value) + (" TBC" if figure.tbc else "")
        yield Words(edge + (_LEAD + 1) * paper, shown, words, _SIZE, "tbc" if figure.tbc else "dimension", "start", bold=True)


def _marked(room: Room) -> Iterator[Figure]:
    """Every height once; of those on one level the one still to be confirmed."""
    heights = [mark.height for mark in rod(room)] + [mark.height for placed in room.placed for mark in marks_of(placed)]
    yield from sorted(heights, key=lambda each: each.tbc)
