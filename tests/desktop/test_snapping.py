"""What pulls a thing that is moved, and by what name."""

from __future__ import annotations

import pytest

from tundish.catalogue.load import supplied_book
from tundish.desktop.moves import thing_of
from tundish.desktop.snapping import pulls_along, pulls_up
from tundish.estimate import Estimate, estimate
from tundish.field import Entry, put
from tundish.store.keep import demo_jobs


@pytest.fixture(scope="module")
def family() -> Estimate:
    """Pan 360 wide at 390, bidet 360 wide at 1,020, basin 600 wide at 1,790, on a wall 2,450 wide."""
    return estimate(next(job for job in demo_jobs() if job.number == "102"), supplied_book())


def along(worked: Estimate, piece: str, name: str) -> set[float]:
    room = worked.rooms[0]
    thing = thing_of(room, piece)
    assert thing is not None
    return {round(each.value, 3) for each in pulls_along(room, thing, worked.book) if each.name == name}


def test_equal_gaps_are_in_the_middle_of_every_gap_it_can_be_dragged_to(family: Estimate) -> None:
    """By hand: the bidet between pan (to 570) and basin (from 1,490) at 1,030; past the basin (to 2,090) the 360 left are just enough."""
    assert along(family, "bidet-1", "equal gaps") == {1030, 2270}
    assert along(family, "basin-1", "equal gaps") == {1825}, "from the bidet, to 1,200, to the wall; between pan and bidet are 270 alone"


def test_the_least_clearance_is_kept_on_either_side_of_every_other(family: Estimate) -> None:
    """By hand: 200 of gap and half of 360 beyond 570 and 2,090, and before 210 and 1,490; and from either wall."""
    gap, wall = (family.book.figure(name).value for name in ("space.ware_gap", "space.bidet_centre"))
    expected = {570 + gap + 180, 2090 + gap + 180, 210 - gap - 180, 1490 - gap - 180, wall, 2450 - wall}
    assert along(family, "bidet-1", "least clearance") == expected


def test_each_kind_keeps_its_own_elbow_room_from_the_walls(family: Estimate) -> None:
    for piece, figure in (("wc-1", "space.wc_centre"), ("basin-1", "space.basin_centre")):
        wall = family.book.figure(figure).value
        assert {wall, 2450 - wall} <= along(family, piece, "least clearance")


def test_the_lowest_that_the_fall_allows_pulls_and_is_the_last_that_passes(family: Estimate) -> None:
    room = family.rooms[0]
    thing = thing_of(room, "wc-1")
    assert thing is not None
    (lowest,) = [each.value for each in pulls_up(room, thing, family.findings) if each.name == "lowest the fall allows"]
    states = []
    for top in (lowest, lowest - 1):
        lower = estimate(put(family.job, "rooms.0.design.appliances.0.top", Entry(top)), family.book)
        states.append(next(each.state for each in lower.findings if each.rule == "drainage/branch-fall"))
    assert states == ["passes", "fails"]


def test_the_middle_of_the_wall_and_the_tiles_pull_too(family: Estimate) -> None:
    assert along(family, "wc-1", "wall centre") == {1225}
    assert along(family, "wc-1", "tile joint")
    assert along(family, "wc-1", "tile centre")
