"""What was found at the walls of a room, as marks of its plan and of each wall; and how far an input of it reaches there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tundish import measure
from tundish.documents import slope_drawing
from tundish.documents.drawing import Box, Dimension, Ellipse, Mark, Style, Words
from tundish.documents.section_drawing import CHALK
from tundish.documents.turning import turned
from tundish.field import fields_of, read
from tundish.layout.design import Appliance, Hatch, Niche, PreWall
from tundish.layout.room import Room
from tundish.layout.walls import WallSide
from tundish.survey.pipes import Stack, WasteEntry, Water

PLAN: Final = "plan"
FACE: Final = "face"
"""The two ways to look at a wall: from above, and at it from inside."""
HATCH_SIDE: Final = 200.0
SPOT: Final = 28.0
_OUT: Final = ("from_wall", "depth")
_UP: Final = ("height", "sill", "bottom", "invert", "top")


@dataclass(frozen=True, slots=True)
class Span:
    """From where to where an input reaches: x along its wall; y out of it on plan, up it on its face."""

    view: str
    x1: float
    y1: float
    x2: float
    y2: float

    def chalk(self, way: int) -> Dimension:
        """Its dimension in chalk; `way` is −1 where y runs down the page."""
        shown = measure.show_length(math.hypot(self.x2 - self.x1, self.y2 - self.y1))
        if self.y2 < min(self.y1, 0.0):
            shown = f"−{shown}"
        return Dimension(self.x1, way * self.y1, self.x2, way * self.y2, shown, CHALK)


def wall_of(room: Room, record: object) -> WallSide | None:
    """The wall that a record's places are measured along: wall A where it names none; None where the room has no such wall."""
    letter = getattr(record, "wall", None)
    return room.side_of(letter) if isinstance(letter, str) else room.sides[0]


def span_of(record: object, name: str, room: Room) -> Span | None:
    """How far an input of a record reaches; None where it is no length at a wall."""
    match record:
        case Appliance():
            return _of_appliance(record, name, room)
        case Niche() | Hatch():
            return _of_recess(record, name, room)
        case PreWall():
            start, end, up = room.start.value, room.start.value + room.run.value, room.top.value + 40
            return {"from_left": Span(FACE, 0, up, start, up), "run": Span(FACE, start, up, end, up)}.get(name)
        case Water():
            x = _value(record, name)
            return Span(PLAN, 0, 2 * SPOT, x, 2 * SPOT) if name.endswith("_from_left") else None
    if record is None or "from_left" not in fields_of(type(record)):
        return None
    return _at_wall(record, name)


def within(room: Room) -> Iterator[Mark]:
    """The stack, waste entries, supplies and electrics on plan, where they were found."""
    for record, marks in _found(room, PLAN):
        side = wall_of(room, record)
        yield from turned(marks, side) if side is not None else ()


def seen_at(room: Room, side: WallSide) -> Iterator[Mark]:
    """What was found at one wall, looking at it."""
    survey = room.plan.survey
    for opening in survey.openings:
        if wall_of(room, opening) is side:
            x, w = _value(opening, "from_left"), _value(opening, "width")
            yield Box(x, _value(opening, "sill"), w, _value(opening, "height"), "ware")
            yield Words(x + w / 2, _value(opening, "sill") + _value(opening, "height") / 2, opening.kind, 2.4, "room")
    for thing in survey.obstacles:
        if wall_of(room, thing) is side:
            x, w, z, h = (_value(thing, each) for each in ("from_left", "width", "bottom", "height"))
            yield Box(x, z, w, h, "hidden")
            yield Words(x + w / 2, z + h / 2, thing.name.strip() or thing.what, 2.4, "hidden", most=w)
    for slope in survey.slopes:
        if wall_of(room, slope) is side:
            yield from slope_drawing.at_wall(slope, side.length.value)
    for record, marks in _found(room, FACE):
        if wall_of(room, record) is side:
            yield from marks


def _found(room: Room, view: str) -> Iterator[tuple[object, tuple[Mark, ...]]]:
    survey, face = room.plan.survey, view == FACE
    x, out, half = _value(survey.stack, "from_left"), _out(survey.stack), _value(survey.stack, "diameter") / 2
    high = _value(survey.room, "height")
    yield survey.stack, (Box(x - half, 0, 2 * half, high, "soil") if face else Ellipse(x, -out, half, half, "soil"),)
    for entry in survey.entries:
        x, out, half = _value(entry, "from_left"), _out(entry), float(entry.size) / 2
        yield entry, (Ellipse(x, _value(entry, "invert") + half if face else -out, half, half, "soil"),)
    supplies: tuple[tuple[str, Style], ...] = (("cold_from_left", "cold"), ("hot_from_left", "hot"))
    for name, style in supplies:
        yield survey.water, (Ellipse(_value(survey.water, name), SPOT if face else -SPOT, SPOT / 2, SPOT / 2, style),)
    for each in survey.electrics:
        x, z = _value(each, "from_left"), _value(each, "height") if face else -SPOT
        yield each, (Box(x - SPOT, z - SPOT, 2 * SPOT, 2 * SPOT, "ink"), Words(x, z + (3 if face else -3) * SPOT, each.what, 2.2))


def _out(record: Stack | WasteEntry) -> float:
    """How far out from the wall it stands, below nought behind it."""
    out = _value(record, "from_wall")
    return -out if record.behind else out


def _at_wall(record: object, name: str) -> Span | None:
    """An input of something that stands at a wall."""
    x, wide, out, deep = (_value(record, each) for each in ("from_left", "width", "from_wall", "depth"))
    out = _out(record) if isinstance(record, Stack | WasteEntry) else out
    low = next((_value(record, each) for each in ("sill", "bottom", "invert") if _has(record, each)), 0.0)
    middle = x + wide / 2
    at = out + deep / 2 if deep else max(out, 2 * SPOT)
    if name in _OUT:
        return Span(PLAN, middle, min(out, 0), middle, max(out, 0)) if name == "from_wall" else Span(PLAN, middle, out, middle, out + deep)
    if name in _UP:
        bottom = low if name == "height" else 0.0
        top = low + _value(record, "height") if name == "height" else low
        return Span(FACE, middle, bottom, middle, top)
    return {"from_left": Span(PLAN, 0, at, x, at), "width": Span(PLAN, x, at, x + wide, at)}.get(name)


def _of_appliance(record: Appliance, name: str, room: Room) -> Span | None:
    number = next((number for number, each in enumerate(room.plan.design.appliances) if each == record), None)
    placed = next((each for each in room.placed if each.path == f"{room.path}.design.appliances.{number}"), None)
    if placed is None or name not in {"centre", "top"}:
        return None
    x, top = placed.centre.value, placed.figures["top"].value
    return Span(FACE, 0, top + 60, x, top + 60) if name == "centre" else Span(FACE, x, room.finished_floor.value, x, top)


def _of_recess(record: Niche | Hatch, name: str, room: Room) -> Span | None:
    floor = room.finished_floor.value
    x, low = _value(record, "from_left"), floor + _value(record, "bottom")
    wide, high = _value(record, "width") or HATCH_SIDE, _value(record, "height") or HATCH_SIDE
    spans = {
        "from_left": Span(FACE, 0, low + high / 2, x, low + high / 2),
        "bottom": Span(FACE, x + wide / 2, floor, x + wide / 2, low),
        "width": Span(FACE, x, low + high / 2, x + wide, low + high / 2),
        "height": Span(FACE, x + wide / 2, low, x + wide / 2, low + high),
    }
    return spans.get(name)


def _has(record: object, name: str) -> bool:
    declared = fields_of(type(record)).get(name)
    return declared is not None and declared.kind == "number"


def _value(record: object, name: str) -> float:
    """A length of a record as it was given, or its usual size; nothing where it has none."""
    if not _has(record, name):
        return 0.0
    found = read(record, name)
    return found.value if found is not None else 0.0
