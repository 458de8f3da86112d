"""How far the bare floor lies below its highest place, from which every height is reckoned."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.figure import Figure, largest, number
from tundish.layout.inputs import Inputs
from tundish.layout.standing import Standing
from tundish.survey.floor import Floor


@dataclass(frozen=True, slots=True)
class Level:
    """The floor as it falls along wall A: `drop` from end to end, None where it is level or was not put in."""

    drop: Figure | None
    from_right: bool
    standing: Standing

    def drop_at(self, x: float) -> Figure:
        """How far the floor lies below its highest place at a place along the pre-wall's wall."""
        if self.drop is None:
            return number(0, label="Floor below its highest place")
        width = self.standing.shape.sides[0].length.value
        along = min(max(self.standing.side.in_plan(x, 0.0)[0] / width, 0.0), 1.0)
        share = number(round(1 - along if self.from_right else along, 4), "", "Share of the way along wall A")
        return (self.drop * share).named("Floor below its highest place")

    def most(self, start: float, end: float) -> Figure | None:
        """The most that it lies below its highest place along a run; None where that is nothing."""
        if self.drop is None:
            return None
        return largest(self.drop_at(start), self.drop_at(end), label="Floor below its highest place")


def level_of(floor: Floor, standing: Standing, inputs: Inputs) -> Level:
    """The floor as surveyed; a drop below zero falls the other way."""
    drop = inputs.sure(floor, "out_of_level", "survey.floor") if floor.out_of_level is not None else None
    right = floor.highest == "right"
    if drop is None or drop.value == drop.low == drop.high == 0:
        return Level(None, right, standing)
    if drop.value < 0:
        return Level((number(0, label="Level") - drop).named(drop.label), not right, standing)
    return Level(drop, right, standing)
