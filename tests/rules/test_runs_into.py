"""How a pre-wall that runs into another is got clear of it: both ways that there are."""

from __future__ import annotations

from tests.published.asking import room_of
from tundish.layout.work_out import work_out_all
from tundish.rules.prewall.runs_into import runs_into
from tundish.rules.rule import Finding


def told(**changes: object) -> list[Finding]:
    asked = {"design.appliances": [], **{name.replace("__", "."): value for name, value in changes.items()}}
    room, book = room_of(asked)
    return [each for each in runs_into.says(work_out_all(room.plan, book)[0], book) if isinstance(each, Finding)]


def test_it_is_shortened_or_runs_on_to_the_corner() -> None:
    """Up to 2,300 of 2,400, the other from 2,176: it ends at 2,176 less its return's 24, or at the wall, where the two meet."""
    (found,) = told(design__prewall__run=2300, design__further=[{"wall": "B", "depth": 200, "top": 1200}])
    assert [way.value for way in found.ways_out] == [2152, 2400]
    for way in found.ways_out:
        assert not told(design__prewall__run=way.value, design__further=[{"wall": "B", "depth": 200, "top": 1200}])


def test_it_starts_further_right_or_at_the_corner() -> None:
    (found,) = told(design__prewall__from_left=100, design__further=[{"wall": "D", "depth": 150, "top": 1200}])
    assert [way.value for way in found.ways_out] == [198, 0]


def test_the_one_that_goes_to_the_wall_is_not_told_as_well() -> None:
    """The other way round: the one on wall B, from the corner on, has no free end there; the first tells it."""
    asked = {"design.appliances": [], "design.prewall.run": 2300, "design.further": [{"wall": "B", "depth": 200, "top": 1200}]}
    room, book = room_of(asked)
    assert not list(runs_into.says(work_out_all(room.plan, book)[1], book))
