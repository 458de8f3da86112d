"""Wall struts over wall studs every 400 from 400, and noggins under the feet on joists."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.field import Entry
from tundish.layout.design import Appliance
from tundish.layout.room import Member, Room

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def members(room: Room, letter: str) -> list[Member]:
    return [each for each in room.members if each.mark.startswith(letter)]


def strut(work: Work, hang: Hang, centre: float, **changes: object) -> Member:
    (found,) = members(work(hang("wc", centre), survey__wall__construction="timber stud", **changes), "S")
    return found


@pytest.mark.parametrize(
    ("centre", "x", "length"),
    [
        (1000, 350, 1300),  # brackets at 780 and 1,220: from stud 400 to stud 1,600, 50 past each
        (1020, 750, 900),  # brackets at 800 and 1,240: 800 and 1,600
        (300, 3, 847),  # from the corner: 3 clear of the wall to 800 + 50
        (1700, 1150, 847),  # brackets at 1,480 and 1,920: 1,200 to the right-hand corner
    ],
)
def test_struts_reach_from_stud_to_stud(work: Work, hang: Hang, centre: float, x: float, length: float) -> None:
    found = strut(work, hang, centre)
    assert (found.x, found.length.value) == (x, length)


def test_a_strut_lies_with_its_middle_at_the_brackets(work: Work, hang: Hang) -> None:
    found = strut(work, hang, 1000)
    assert (found.along, found.y, found.z, found.section) == ("x", 0, 1110 - 20.5, (41, 21))
    assert found.where == "on the wall, behind WC 1"


def test_a_strut_over_the_whole_wall(work: Work, hang: Hang) -> None:
    found = strut(work, hang, 400, survey__room__width=800, survey__wall__stud_centres=600, survey__wall__first_stud=600)
    assert (found.x, found.length.value) == (3, 794)  # from corner to corner, 3 clear of each wall


def test_a_strut_cut_back_at_a_stud_by_the_corner(work: Work, hang: Hang) -> None:
    found = strut(work, hang, 300, survey__wall__first_stud=30)
    assert (found.x, found.length.value) == (3, 877)  # from stud 30, 50 past it is past the corner; to 830 + 50


def test_wall_studs_still_open_keep_the_strut_open(work: Work, hang: Hang) -> None:
    found = strut(work, hang, 1020, survey__wall__stud_centres=Entry(400, low=398, high=402))
    assert (found.length.low, found.length.high, found.length.tbc) == (896, 904, True)  # two bays


def test_wall_studs_stand_at_both_corners_too(work: Work) -> None:
    assert work(survey__wall__construction="metal stud").wall_studs == (0, 400, 800, 1200, 1600, 2000)
    assert work(survey__wall__construction="metal stud", survey__wall__first_stud=0).wall_studs == (0, 400, 800, 1200, 1600, 2000)
    assert work(survey__wall__construction="metal stud", survey__room__width=350).wall_studs == (0, 350)
    assert work(survey__wall__construction="brick").wall_studs == ()


def test_solid_walls_and_solid_floors_need_none_of_it(work: Work, hang: Hang) -> None:
    assert not [each for each in work(hang("wc", 1000)).members if each.mark[0] in "SK"]


def test_a_pre_wall_longer_than_the_room_keeps_its_struts_in_it(work: Work, hang: Hang) -> None:
    found = strut(work, hang, 2400, design__prewall__run=2700)
    assert found.x + found.length.value == 1997


@pytest.mark.parametrize(
    ("changes", "x", "end"),
    [
        ({"run": 1620}, 350, 1617),  # the outer stud, 1,600, is behind it: cut back
        ({"run": 1600}, 350, 1650),  # it is not: the strut goes on over it, for a check to tell
        ({"run": 1500}, 350, 1650),
        ({"from_left": 390}, 393, 1650),
        ({"from_left": 410}, 350, 1650),
        ({"run": 1500, "backing": "wall studs and noggins"}, 350, 1497),  # it ends on a noggin
    ],
)
def test_a_strut_ends_behind_a_pre_wall_that_stops_short(work: Work, hang: Hang, changes: dict[str, object], x: float, end: float) -> None:
    found = strut(work, hang, 1000, **{f"design__prewall__{name}": value for name, value in changes.items()})
    assert (found.x, found.x + found.length.value) == (x, end)
    assert [found.x + each for each in found.beside or found.bears] == [400, 800, 1200, 1600]


@pytest.mark.parametrize(("run", "along", "section"), [("into the wall", "x", (100, 47)), ("along the wall", "y", (47, 100))])
def test_floor_noggins_lie_between_joists_under_each_foot(
    work: Work, hang: Hang, run: str, along: str, section: tuple[float, float]
) -> None:
    room = work(hang("wc", 1000), survey__floor__kind="chipboard on joists", survey__floor__joists_run=run)
    found = members(room, "K")
    assert [each.length.value for each in found] == [353, 353]  # 400 − 47
    assert [(each.role, each.along, each.section, each.z) for each in found] == [("floor noggin", along, section, -100)] * 2
    middle = [each.x + (each.length.value if along == "x" else each.section[0]) / 2 for each in found]
    assert middle == [770, 1230]  # under the legs


def test_a_single_foot_stands_under_the_middle(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 1000, frame="frame-one-foot"), survey__floor__kind="chipboard on joists")
    assert [each.x + each.length.value / 2 for each in members(room, "K")] == [1000]


def test_no_frames_no_noggins(work: Work) -> None:
    assert not members(work(survey__floor__kind="chipboard on joists"), "K")


def test_struts_that_would_overlap_are_one(work: Work, hang: Hang) -> None:
    """Brackets at 380 and 820, 1,180 and 1,620; studs every 400: from 0 to 1,200 and from 800 to the corner at 2,000."""
    room = work(hang("wc", 600), hang("basin", 1400), survey__wall__construction="timber stud")
    (found,) = members(room, "S")
    assert (found.x, found.length.value) == (3, 1994)
    assert found.where == "on the wall, behind WC 1, Basin 1"


def test_struts_that_do_not_meet_stay_two(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 280), hang("basin", 1720), survey__wall__construction="timber stud", survey__wall__stud_centres=300)
    assert [each.where for each in members(room, "S")] == ["on the wall, behind WC 1", "on the wall, behind Basin 1"]
