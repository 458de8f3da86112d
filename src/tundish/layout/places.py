"""Whether what was surveyed can be where it is put: on its wall, within the room, and not two openings in one place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from tundish import measure
from tundish.layout.inputs import Inputs
from tundish.layout.walls import Shape, WallSide, across, closes
from tundish.survey.pipes import Stack, WasteEntry
from tundish.survey.survey import Survey
from tundish.survey.wall import Opening


def check_places(survey: Survey, shape: Shape, inputs: Inputs) -> None:
    """Tell of what is put off the end of its wall, beyond the wall opposite, above the ceiling, or through another opening."""
    for each in (*_things(survey, inputs), *_services(survey, inputs)):
        place = shape.place_of(each.wall)
        if place is not None:
            _check(each, shape.sides[place], shape, inputs)
    _check_openings(survey, inputs)
    high = inputs.sure(survey.room, "height", "survey.room").value
    for place, slope in enumerate(survey.slopes):
        low = inputs.sure(slope, "at_wall", f"survey.slopes.{place}").value
        if low > high:
            shown = measure.show_length(low), measure.show_length(high)
            words = f"The {slope.kind} is {shown[0]} high at its wall, the room {shown[1]}: measure one of them again"
            inputs.tell(f"survey.slopes.{place}.at_wall", words)


@dataclass(frozen=True, slots=True)
class _Put:
    """Something at a wall: what it is called, where its place is put in, how far along and out it ends."""

    name: str
    at: str
    wall: str
    ends: float
    out: float = 0.0
    out_at: str = ""
    thing: bool = True


_SLACK: Final = 1.0
"""Tapes differ by as much, mm."""


def _check(each: _Put, side: WallSide, shape: Shape, inputs: Inputs) -> None:
    long = side.length.value
    if each.ends > long + _SLACK:
        ends = "ends" if each.thing else "is"
        words = (
            f"The {each.name} {ends} {measure.show_length(each.ends)} along wall {side.letter}, which is {measure.show_length(long)} long"
        )
        inputs.tell(each.at, f"{words}: measure where it is again")
    elif each.out and closes(shape.sides):
        deep = across(shape.sides, side, min(max(each.ends - _SLACK, _SLACK), long - _SLACK))
        if each.out > deep + _SLACK:
            words = f"The {each.name} comes {measure.show_length(each.out)} out of wall {side.letter}, and the room ends at"
            inputs.tell(each.out_at, f"{words} {measure.show_length(round(deep))}: measure it again")


def _things(survey: Survey, inputs: Inputs) -> Iterator[_Put]:
    """What takes room along its wall."""
    for place, opening in enumerate(survey.openings):
        at = f"survey.openings.{place}"
        left, wide = (inputs.sure(opening, name, at).value for name in ("from_left", "width"))
        yield _Put(opening.kind, f"{at}.from_left", opening.wall, left + wide)
    for place, thing in enumerate(survey.obstacles):
        at = f"survey.obstacles.{place}"
        left, wide, near, deep = (inputs.sure(thing, name, at).value for name in ("from_left", "width", "from_wall", "depth"))
        name = thing.name.strip() or thing.what
        yield _Put(name, f"{at}.from_left", thing.wall, left + wide, near + deep, f"{at}.depth")


def _services(survey: Survey, inputs: Inputs) -> Iterator[_Put]:
    """What is at one place of its wall, where that was measured."""
    found: list[tuple[str, Stack | WasteEntry, str]] = [("stack", survey.stack, "survey.stack")]
    found += [(each.name.strip() or f"entry {place + 1}", each, f"survey.entries.{place}") for place, each in enumerate(survey.entries)]
    for name, one, at in found:
        if one.from_left is not None:
            left, out = (inputs.sure(one, which, at).value for which in ("from_left", "from_wall"))
            yield _Put(name, f"{at}.from_left", one.wall, left, out, f"{at}.from_wall", thing=False)
    water = survey.water
    for kind in ("cold", "hot"):
        if getattr(water, f"{kind}_from_left") is not None:
            left = inputs.sure(water, f"{kind}_from_left", "survey.water").value
            yield _Put(f"{kind} pipe", f"survey.water.{kind}_from_left", water.wall, left, thing=False)
    for place, each in enumerate(survey.electrics):
        at = f"survey.electrics.{place}"
        yield _Put(each.what, f"{at}.from_left", each.wall, inputs.sure(each, "from_left", at).value, thing=False)


def _check_openings(survey: Survey, inputs: Inputs) -> None:
    high = inputs.sure(survey.room, "height", "survey.room").value
    boxes = [(place, each, _box(each, f"survey.openings.{place}", inputs)) for place, each in enumerate(survey.openings)]
    for place, opening, (_, _, sill, head) in boxes:
        if head > high + _SLACK:
            words = f"The {opening.kind} ends {measure.show_length(head)} above the floor, the room is {measure.show_length(high)} high"
            inputs.tell(f"survey.openings.{place}.{'height' if sill < high else 'sill'}", f"{words}: measure it again")
    for (_, one, (left, right, low, top)), (place, other, (x1, x2, z1, z2)) in combinations(boxes, 2):
        if one.wall == other.wall and min(right, x2) - max(left, x1) > _SLACK and min(top, z2) - max(low, z1) > _SLACK:
            where = f"from {measure.show_length(left)} to {measure.show_length(right)}"
            words = f"The {other.kind} in wall {other.wall} is where a {one.kind} is, {where}"
            inputs.tell(f"survey.openings.{place}.from_left", f"{words}: measure where they are again")


def _box(opening: Opening, at: str, inputs: Inputs) -> tuple[float, float, float, float]:
    left, wide, sill, high = (inputs.sure(opening, name, at).value for name in ("from_left", "width", "sill", "height"))
    return left, left + wide, sill, sill + high
