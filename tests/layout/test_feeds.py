"""Hot from 350 and cold from 300, along the wall at 150 and then up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from tundish.field import Entry
from tundish.layout.design import Appliance
from tundish.layout.room import Room

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def test_a_basin_takes_hot_on_its_left_and_cold_on_its_right(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 1000, 850))
    hot, cold = room.pipes_of("hot", "cold")
    assert hot.pieces == (("H1a", room.figures["H1a"]), ("H1b", room.figures["H1b"]))
    assert [length.value for length in hot.lengths] == [575, 430]  # 925 − 350; 580 − 150
    assert [length.value for length in cold.lengths] == [775, 430]  # 1,075 − 300
    assert list(hot.points) == [(350, 0), (350, 150), (925, 150), (925, 580)]
    assert (hot.key, hot.serves, hot.size) == ("basin-1.hot", "basin-1", 15)
    assert hot.fall is None
    assert hot.rise is not None
    assert hot.rise.value == 430


def test_wc_and_urinal_take_cold_only_at_their_centre(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 600), hang("urinal", 1400))
    assert [(each.key, each.mark, each.run.value) for each in room.pipes_of("hot", "cold")] == [
        ("wc-1.cold", "C1", 300),
        ("urinal-1.cold", "C2", 1100),
    ]


def test_a_draw_off_over_the_rise_needs_only_the_piece_upwards(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 330))  # 30 along: the fittings meet
    (cold,) = room.pipes_of("cold")
    assert [mark for mark, _ in cold.pieces] == ["C1"]
    assert room.figures["C1"].value == 880  # 1,030 − 150


def test_a_draw_off_at_the_run_s_own_height_over_its_rise_needs_no_pipe(work: Work, hang: Hang) -> None:
    room = work(hang("bidet", 410, 380), survey__water__cold_from_left=470)  # supply 20 + 380 − 225 = 175: 25 up, nothing along
    hot, cold = room.pipes_of("hot", "cold")
    assert (hot.pieces, cold.pieces) == ((), ())


@pytest.mark.parametrize("rise", [100, 900])
def test_either_side(work: Work, hang: Hang, rise: float) -> None:
    (cold,) = work(hang("wc", 500), survey__water__cold_from_left=rise).pipes_of("cold")
    assert cold.run.value == 400


def test_a_rise_that_may_be_on_either_side(work: Work, hang: Hang) -> None:
    (cold,) = work(hang("wc", 500), survey__water__cold_from_left=Entry(450, low=400, high=620)).pipes_of("cold")
    assert (cold.run.low, cold.run.value, cold.run.high) == (0, 50, 120)


def test_under_the_floor_it_goes_down_where_it_comes_in_and_up_behind_its_appliance(work: Work, hang: Hang) -> None:
    """110 under the floor: up from there as high as the draw-off and 110 more, with a bend more."""
    void, floor = (work(replace(hang("wc", 500), feeds=feeds)).pipes_of("cold")[0] for feeds in ("in the void", "under the floor"))
    assert floor.run.value == void.run.value
    assert void.rise is not None
    assert floor.rise is not None
    assert floor.rise.value == void.rise.value + 150 + 110
    assert floor.bends == ("under the floor", *void.bends)
    assert {z for x, _, z in floor.route if x not in {void.route[0][0], 500}} <= {-110}
    assert min(z for _, _, z in floor.route) == -110


# ------------------------------------------------------------------------------------------------ heights


def test_a_supply_that_would_lie_in_another_runs_the_next_step_higher(work: Work, hang: Hang) -> None:
    """Hot from 350 to 1,525 lies along the wall at 150, and behind the branch nothing goes in front of it: the WC's cold comes over it."""
    room = work(hang("wc", 700), hang("basin", 1600, 850))
    cold = next(run for run in room.pipes_of("cold") if run.serves == "wc-1")
    assert cold.level is not None
    assert (cold.level.value, cold.level.path) == (250, "rooms.0.design.appliances.0.cold_at")
    assert [each.value for each in cold.lengths] == [100, 400, 780]  # up to 250; 700 − 300; 1,030 − 250
    assert cold.bends == ("up to where it runs", "up the wall", "out of the wall")
    assert room.figures["wc-1.cold.level"] == cold.level
    assert {run.level.value for run in room.pipes_of("hot") if run.level} == {150}


def test_a_height_that_was_chosen_is_kept_whatever_lies_there(work: Work, hang: Hang) -> None:
    room = work(replace(hang("wc", 700), cold_at=Entry(150)), hang("basin", 1600, 850))
    cold = next(run for run in room.pipes_of("cold") if run.serves == "wc-1")
    assert [each.value for each in cold.lengths] == [400, 880]
    assert cold.onto is None


def test_a_height_still_open_leaves_the_pieces_open(work: Work, hang: Hang) -> None:
    """At 250 to 300, 250 now: 100 to 150 up to it, 780 to 730 from it up to 1,030; what runs along is settled."""
    (cold,) = work(replace(hang("wc", 600), cold_at=Entry(250, low=250, high=300, tbc=True))).pipes_of("cold")
    onto, run, up = cold.lengths
    assert [(each.low, each.value, each.high) for each in (onto, run, up)] == [(100, 100, 150), (300, 300, 300), (730, 780, 780)]
    assert onto.tbc
    assert up.tbc
    assert not run.tbc


def test_a_run_above_its_draw_off_comes_down_to_it(work: Work, hang: Hang) -> None:
    """The bidet's supply is at 235 with its top at 440: from 500 it comes 265 down."""
    hot, cold = work(replace(hang("bidet", 1000, 440), hot_at=Entry(500))).pipes_of("hot", "cold")
    assert "down the wall" in hot.bends
    assert [each.value for each in hot.lengths] == [350, 590, 265]  # 500 − 150; 940 − 350; 500 − 235
    assert "up the wall" in cold.bends


def test_a_lower_run_needs_no_piece_to_get_to_it(work: Work, hang: Hang) -> None:
    (cold,) = work(replace(hang("wc", 600), cold_at=Entry(80))).pipes_of("cold")
    assert [each.value for each in cold.lengths] == [300, 950]


def test_under_the_floor_no_height_counts(work: Work, hang: Hang) -> None:
    (cold,) = work(replace(hang("wc", 600), cold_at=Entry(400), feeds="under the floor")).pipes_of("cold")
    assert cold.level is not None
    assert cold.level.value == -110


def test_a_height_out_of_bounds_is_told_and_held(work: Work, hang: Hang) -> None:
    room = work(replace(hang("wc", 600), cold_at=Entry(5)))
    assert [each.path for each in room.problems] == ["rooms.0.design.appliances.0.cold_at"]
    assert room.figures["wc-1.cold.level"].value == 20
