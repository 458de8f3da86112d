"""The shape of a room: a plain box, or what its walls make."""

from __future__ import annotations

from tundish.layout.inputs import Inputs
from tundish.layout.polygon import polygon
from tundish.layout.walls import Shape, rectangle
from tundish.survey.survey import Survey


def shape_of(survey: Survey, inputs: Inputs) -> Shape:
    """The walls of a room as surveyed: a box of its width and depth unless lengths or corners of further walls say otherwise."""
    shell = survey.room
    width, depth = inputs.sure(shell, "width", "survey.room"), inputs.sure(shell, "depth", "survey.room")
    box = rectangle(width, depth)
    blank = all(side.length is None and (side.corner is None or side.corner.value == _SQUARE) for side in survey.walls)
    if blank and len(survey.walls) < len(box.sides):
        return box
    return polygon(survey, width, inputs) or box


_SQUARE = 90.0
