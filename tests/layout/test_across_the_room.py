"""Each pre-wall of a room has the others, and what hangs on them, around it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tundish.catalogue.book import Book
from tundish.field import Entry
from tundish.layout.design import Appliance, PreWall, RoomPlan
from tundish.layout.work_out import work_out_all

Planned = Callable[..., RoomPlan]
Hang = Callable[..., Appliance]


def test_a_room_of_one_pre_wall_has_no_other_around_it(planned: Planned, book: Book) -> None:
    (room,) = work_out_all(planned(), book)
    assert not room.around.of("prewall", "ware")


def test_what_hangs_opposite_is_seen_from_either_side(planned: Planned, book: Book, hang: Hang) -> None:
    hung = hang("basin", 400), replace(hang("wc", 500, name="WC opposite"), on="2")
    further = (PreWall(wall="C", depth=Entry(200)),)
    here, there = work_out_all(planned(design__further=further, design__appliances=hung), book)
    (wall,) = here.around.of("prewall")
    face, deep = there.figures["finished_face"].value, here.figures["room_depth"].value
    assert wall.name == "pre-wall at wall C"
    assert round(min(y for _, y in wall.shape), 6) == deep - face
    (seen,) = here.around.of("ware")
    (opposite,) = there.placed
    assert seen.name == "WC opposite"
    assert seen.top == opposite.figures["top"].value
    assert round(max(x for x, _ in seen.shape), 6) == here.width.value - 500 + opposite.ware.size("width").value / 2
    assert round(min(y for _, y in seen.shape), 6) == deep - face - opposite.ware.size("projection").value
    assert {each.name for each in there.around.of("ware")} == {one.name for one in here.placed}


def test_a_pipe_that_comes_round_the_corner_passes_behind_the_pre_wall_there(planned: Planned, book: Book, hang: Hang) -> None:
    """The basin of wall B is fed from wall A: behind that its pipe of 15 in 13 of insulation lies 10 + 20.5 off either wall."""
    basin = replace(hang("basin", 900, name="Basin 1"), on="2")
    further = (PreWall(wall="B", depth=Entry(200), top=Entry(1200)),)
    here, there = work_out_all(planned(hang("wc", 500), basin, design__further=further), book)
    passing = {run.what: (run, one) for run, one in here.passing}
    hot, served = passing["Hot, Basin 1"]
    assert served is there.placed[0]
    assert any(x == here.width.value - 30.5 and y == 30.5 for x, y, _ in hot.route)
    assert not there.passing


def test_between_two_fronts_as_high_pipes_pass_beside_the_wall(planned: Planned, book: Book, hang: Hang) -> None:
    """Wall A is 2,000 and the front of B 200 off it: the last upright of A stands at 1,800, half under its boards, half behind B."""
    further = (PreWall(wall="B", depth=Entry(200), top=Entry(1200)),)
    here, _ = work_out_all(planned(hang("wc", 500), design__further=further), book)
    assert max(each.value for each in here.supports) == 1800
    assert here.faces[0].width.value == 1800
    lower = (PreWall(wall="B", depth=Entry(200), top=Entry(1000)),)
    here, _ = work_out_all(planned(hang("wc", 500), design__further=lower), book)
    assert max(each.value for each in here.supports) == 2000 - 20.5
