"""The sketch beside the survey: plan, wall or section, whichever shows an input best, with that input dimensioned in chalk."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Final

from tundish import measure
from tundish.documents.drawing import Box, Dimension, Drawing, Line, Mark, Shape, Words
from tundish.documents.plan_drawing import whole_room
from tundish.documents.section_drawing import CHALK, section
from tundish.documents.survey_marks import FACE, Span, seen_at, span_of, wall_of, within
from tundish.documents.turning import at, turned
from tundish.documents.wall_drawing import CLIENT_VIEW, elevation
from tundish.field import NoSuchInputError, get, must_read
from tundish.layout.room import Room
from tundish.layout.walls import WallSide
from tundish.survey.shape import Slope
from tundish.survey.wall import wall_letter

_INSIDE: Final = 130.0
"""How far inside a wall its length is written."""
_ARM: Final = 350.0
_SECTIONS: Final = ("survey.floor", "survey.stack.from_wall", "survey.stack.branch_invert", "survey.stack.room_above")
_PLANS: Final = (".wall", ".stands", ".setback")


def follow(room: Room, path: str) -> Drawing:
    """The drawing that shows an input best; `path` is within the room. The input is a mark of the piece `CHALK`."""
    record, name = _record_of(room, path)
    if isinstance(record, Slope) and name in {"at_wall", "reach"}:
        return _profile(room, record, name)
    if path == "survey.room.height":
        return _wall(room, room.sides[0], Span(FACE, 0.0, 0.0, 0.0, must_read(room.plan.survey.room, "height").value))
    if path.startswith("design."):
        return _of_design(room, path, span_of(record, name, room))
    if path.startswith(_SECTIONS):
        return section(room, path)
    span = span_of(record, name, room)
    side = wall_of(room, record)
    if side is not None and span is not None and span.view == FACE:
        return _wall(room, side, span)
    return _plan(room, path, side or room.sides[0], span if side is not None else None)


def _of_design(room: Room, path: str, span: Span | None) -> Drawing:
    """What is chosen is seen from the front, but for how deep and how high the pre-wall is, and where it stands."""
    if path.startswith(("design.appliances", "design.finish")):
        return _front(room, span)
    if path.endswith((".top", ".depth")):
        return section(room, path)
    if path.startswith("design.floor") or path.endswith(_PLANS):
        return _plan(room, path, room.sides[0], None)
    return _front(room, span)


def _record_of(room: Room, path: str) -> tuple[object, str]:
    """The record that an input belongs to, and its name there."""
    where, _, name = path.rpartition(".")
    try:
        return (get(room.plan, where), name) if where else (None, name)
    except NoSuchInputError:
        return None, name


def _plan(room: Room, path: str, side: WallSide, span: Span | None) -> Drawing:
    whole = whole_room(room, CLIENT_VIEW)
    chalk = tuple(_walls_chalk(room, path))
    if span is not None:
        chalk = (*chalk, *turned((span.chalk(-1),), side))
    plain = (mark for mark in whole.marks if not chalk or not isinstance(mark, Dimension))
    known = (*plain, *within(room))
    return Drawing("Plan of the room", (*known, *chalk), _round(whole.extent, chalk))


def _walls_chalk(room: Room, path: str) -> Iterator[Mark]:
    """The wall whose length or corner is being typed, and the room's width and depth."""
    words = path.split(".")
    first = room.sides[0]
    if path == "survey.room.width":
        yield from turned((_dimension(0, -_INSIDE, first.length.value, -_INSIDE),), first)
    elif path == "survey.room.depth":
        depth = must_read(room.plan.survey.room, "depth").value
        yield from turned((_dimension(_INSIDE, -depth, _INSIDE, 0),), first)
    elif path.startswith("survey.wall."):
        yield from _wall_chosen(first)
    elif path.startswith("survey.walls.") and len(words) > 3:  # noqa: PLR2004 - survey.walls.0.length
        place = int(words[2]) + 1
        side = next((each for each in room.sides if each.letter == wall_letter(place)), None)
        if side is None:
            return
        if words[3] == "corner":
            yield from _corner(room, side)
        elif words[3] == "length":
            yield from turned((_dimension(0, -_INSIDE, side.length.value, -_INSIDE),), side)
        else:
            yield from _wall_chosen(side)


def _wall_chosen(side: WallSide) -> Iterator[Mark]:
    yield from turned((Line(0, 0, side.length.value, 0, "chosen", CHALK),), side)


def _corner(room: Room, side: WallSide) -> Iterator[Mark]:
    """The corner at a wall's left: a stretch of both walls, and the angle between them inside the room."""
    before = room.sides[room.sides.index(side) - 1]
    arm, other = min(_ARM, side.length.value), min(_ARM, before.length.value)
    yield from turned((Line(0, 0, arm, 0, "chosen", CHALK),), side)
    yield from turned((Line(before.length.value - other, 0, before.length.value, 0, "chosen", CHALK),), before)
    turn = math.radians(side.angle / 2)
    yield Words(*at(side, _ARM / 2 * math.cos(turn), -_ARM / 2 * math.sin(turn)), f"{side.angle:g}°", 2.8, "chosen", bold=True, piece=CHALK)


def _wall(room: Room, side: WallSide, span: Span) -> Drawing:
    """One wall, looking at it from inside: its length and the room's height to scale, and what was found at it."""
    high, wide = must_read(room.plan.survey.room, "height").value, side.length.value
    shell = (
        Box(-60, -60, wide + 120, 60, "wall"),
        Box(-60, 0, 60, high, "wall"),
        Box(wide, 0, 60, high, "wall"),
        Box(0, 0, wide, high, "ink", filled=False),
    )
    marks = (*shell, *seen_at(room, side), span.chalk(1))
    return Drawing(f"Wall {side.letter}, looking at it", marks, _round((-80.0, -80.0, wide + 160, high + 120), marks))


def _front(room: Room, span: Span | None) -> Drawing:
    whole = elevation(room)
    if span is None:
        return whole
    chalk = span.chalk(1)
    return Drawing(whole.title, (*whole.marks, chalk), _round(whole.extent, (chalk,)), whole.pieces)


def _profile(room: Room, slope: Slope, name: str) -> Drawing:
    """A slope from its side: the wall at which it is lowest on the left."""
    high = must_read(room.plan.survey.room, "height").value
    low, reach = must_read(slope, "at_wall").value, must_read(slope, "reach").value
    deep = max(reach * 1.5, 1_200.0)
    top = ((0.0, low), (reach, high), (deep, high), (deep, high + 60), (-60.0, high + 60), (-60.0, low))
    marks: tuple[Mark, ...] = (
        Box(-60, -60, deep + 60, 60, "wall"),
        Box(-60, 0, 60, low, "wall"),
        Shape(top, "wall"),
        Line(0, low, reach, high, "board"),
        _dimension(120, 0, 120, low) if name == "at_wall" else _dimension(0, high * 0.6, reach, high * 0.6),
    )
    return Drawing(f"{slope.kind.capitalize()} from its side, wall {slope.wall} on the left", marks, (-100, -100, deep + 140, high + 200))


def _dimension(x1: float, y1: float, x2: float, y2: float) -> Dimension:
    return Dimension(x1, y1, x2, y2, measure.show_length(math.hypot(x2 - x1, y2 - y1)), CHALK)


def _round(extent: tuple[float, float, float, float], marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """The extent, made larger where a dimension in chalk reaches beyond it."""
    x, y, wide, high = extent
    ends = [(end_x, end_y) for mark in marks if isinstance(mark, Dimension) for end_x, end_y in ((mark.x1, mark.y1), (mark.x2, mark.y2))]
    left, low = min([x, *(each - 80 for each, _ in ends)]), min([y, *(each - 80 for _, each in ends)])
    right, top = max([x + wide, *(each + 80 for each, _ in ends)]), max([y + high, *(each + 80 for _, each in ends)])
    return left, low, right - left, top - low
