"""Where uprights stand, in steel and in timber, between a frame 500 wide (legs 40) and the ends of the run."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.layout.design import Appliance
from tundish.layout.room import Room

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def uprights(room: Room) -> list[float]:
    return [figure.value for key, figure in room.figures.items() if key.startswith("U") and key.endswith(".from_left")]


def test_uprights_stand_evenly_at_most_400_apart(work: Work, hang: Hang) -> None:
    # Ends at 20.5 and 1,979.5; legs at 770 and 1,230. 770 − 20.5 = 749.5 wants one between, half way: 20.5 + 374.75.
    room = work(hang("wc", 1000))
    assert uprights(room) == [20.5, 395.25, 1604.75, 1979.5]
    assert [each.value for each in room.supports] == [20.5, 395.25, 770, 1230, 1604.75, 1979.5]


def test_exact_multiples_are_not_rounded_further(work: Work) -> None:
    # 1,641 − 41 between the end uprights is four times 400: three between.
    assert uprights(work(survey__room__width=1641)) == [20.5, 420.5, 820.5, 1220.5, 1620.5]


def test_a_leg_near_the_end_serves_as_its_upright(work: Work, hang: Hang) -> None:
    # Centre 340: the left leg at 110 stands 89.5 from where the end upright would, the floor is clear for 90 only.
    room = work(hang("wc", 340))
    assert uprights(room)[0] > 570
    assert [each.mark for each in room.members if each.mark.startswith("F")] == ["F1"]


@pytest.mark.parametrize(("centre", "at_end"), [(350.5, False), (351, True)])
def test_near_ends_at_100(work: Work, hang: Hang, centre: float, at_end: bool) -> None:
    # The left leg is 230 left of the centre: 120.5 is exactly 100 from the end upright at 20.5.
    assert (uprights(work(hang("wc", centre)))[0] == 20.5) is at_end


def test_near_counts_at_the_right_hand_end_too(work: Work, hang: Hang) -> None:
    assert uprights(work(hang("wc", 1660)))[-1] < 1430


def test_frames_side_by_side_have_nothing_between_them(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 700), hang("basin", 1200))
    assert not [x for x in uprights(room) if 450 < x < 1450]


def test_frames_that_overlap_are_taken_as_one(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 700), hang("basin", 900), hang("bidet", 800))
    assert not [x for x in uprights(room) if 450 < x < 1150]


def test_two_frames_that_fill_the_run_need_no_upright(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 250), hang("basin", 750), survey__room__width=1000)
    assert not uprights(room)
    assert not [each for each in room.members if each.mark[0] in "FW"]


def test_with_no_frame_the_whole_run_is_one_gap(work: Work) -> None:
    assert uprights(work()) == pytest.approx([20.5, 412.3, 804.1, 1195.9, 1587.7, 1979.5])


def test_timber_stands_beside_the_frame(work: Work, hang: Hang) -> None:
    # Ends at 19 and 1,981; beside the frame's edges at 750 and 1,250: 731 and 1,269. 731 − 19 = 712 wants one between, at 375.
    room = work(hang("wc", 1000), design__prewall__built_of="timber")
    assert uprights(room) == [19, 375, 731, 1269, 1625, 1981]


@pytest.mark.parametrize(
    ("apart", "studs"),
    [
        (30, []),  # no room for a stud
        (38, [719]),  # room for one: 700 + 19
        (75, [719]),
        (76, [719, 757]),  # room for both
    ],
)
def test_timber_between_two_frames_goes_where_there_is_room(work: Work, hang: Hang, apart: float, studs: list[float]) -> None:
    room = work(hang("wc", 450), hang("basin", 950 + apart), design__prewall__built_of="timber")  # edges at 700 and 700 + apart
    assert [x for x in uprights(room) if 700 <= x <= 800] == studs


def test_timber_beside_a_frame_near_the_end_stands_alone(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 360), design__prewall__built_of="timber")  # a gap of 110: the side stud at 91 is 72 from the end stud
    assert uprights(room)[0] == 91
