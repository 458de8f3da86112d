"""The shape of a room: a plain box, or what its walls make."""

from __future__ import annotations

from typing import Final

from tundish.field import Entry
from tundish.layout.inputs import Inputs
from tundish.layout.polygon import polygon
from tundish.layout.walls import Shape, rectangle
from tundish.survey.survey import Survey
from tundish.survey.wall import wall_letter


def shape_of(survey: Survey, inputs: Inputs) -> Shape:
    """The walls of a room as surveyed: a box of its width and depth unless lengths or corners of further walls say otherwise."""
    shell = survey.room
    width, depth = inputs.sure(shell, "width", "survey.room"), inputs.sure(shell, "depth", "survey.room")
    box = rectangle(width, depth)
    return box if _is_box(survey) else polygon(survey, width, inputs)


def walls_of(survey: Survey) -> tuple[str, ...]:
    """The letters of the walls that a room is surveyed with: those of a box where no more is known."""
    return tuple(wall_letter(place) for place in range(_BOX if _is_box(survey) else len(survey.walls) + 1))


def _is_box(survey: Survey) -> bool:
    return len(survey.walls) < _BOX and all(side.length is None and _square(side.corner) for side in survey.walls)


def _square(corner: Entry | None) -> bool:
    return corner is None or corner.value == _SQUARE


_SQUARE: Final = 90.0
_BOX: Final = 4
