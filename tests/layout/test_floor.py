"""A floor out of level: heights from its highest place, uprights cut to where they stand."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.catalogue.book import Book
from tundish.layout.design import RoomPlan
from tundish.layout.inputs import Inputs
from tundish.layout.outline import outline_of
from tundish.layout.room import Room
from tundish.layout.standing import standings

Planned = Callable[..., RoomPlan]
Work = Callable[..., Room]


@pytest.mark.parametrize(
    ("drop", "highest", "falls"),
    [(40, "left", [0, 20, 40]), (40, "right", [40, 20, 0]), (-40, "left", [40, 20, 0]), (0, "left", [0, 0, 0])],
)
def test_the_floor_falls_evenly_from_its_highest_place(planned: Planned, book: Book, drop: float, highest: str, falls: list[float]) -> None:
    plan, inputs = planned(survey__floor__out_of_level=drop, survey__floor__highest=highest), Inputs("rooms.0")
    outline = outline_of(plan, standings(plan, inputs)[0], book, inputs)
    assert [outline.drop_at(x).value for x in (0, 1000, 2000)] == falls


def test_along_another_wall_the_floor_lies_as_it_does_in_plan(planned: Planned, book: Book) -> None:
    plan, inputs = planned(survey__floor__out_of_level=40, design__prewall__wall="B"), Inputs("rooms.0")
    outline = outline_of(plan, standings(plan, inputs)[0], book, inputs)
    assert [outline.drop_at(x).value for x in (0, 1800)] == [40, 40]


def test_uprights_are_cut_to_their_place_and_rails_lie_on_the_floor(work: Work) -> None:
    level, fallen = work(), work(survey__floor__out_of_level=40)
    pairs = [(one, other) for one, other in zip(level.members, fallen.members, strict=True) if one.what == "upright"]
    assert len(pairs) > 3
    for one, other in pairs:
        drop = 40 * (other.x + 41 / 2) / 2000
        assert other.length.value == pytest.approx(one.length.value + drop, abs=0.05)
        assert other.z == pytest.approx(one.z - drop, abs=0.05)
        assert other.z + other.length.value == pytest.approx(one.z + one.length.value, abs=1e-6)  # all end beneath the top rail
    rail = next(member for member in fallen.members if member.what == "floor rail")
    assert rail.z == pytest.approx(-20, abs=0.05)
    assert fallen.faces[0].height.value == level.faces[0].height.value + 40
    assert not fallen.problems
