"""A lower run along a wall that stops against a higher pre-wall across its corner: worked by hand."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from tundish.catalogue.book import Book
from tundish.field import Entry, put
from tundish.layout import footprints
from tundish.layout.clip import area_of_shape, common
from tundish.layout.design import Appliance, PreWall, RoomPlan
from tundish.layout.room import Face, Member, Room
from tundish.layout.tiled_room import tiled_faces
from tundish.layout.work_out import work_out_all
from tundish.survey.wall import Side, Wall

Hang = Callable[..., Appliance]
Planned = Callable[..., RoomPlan]
BRICK = (Side(wall=Wall(construction="brick")),) * 3
CORNER = PreWall(name="corner", wall="A", stands="across its left-hand corner", setback=Entry(900), top=Entry(1200))
SQRT = math.sqrt(2)
FACE = math.tan(math.radians(22.5))
"""(1 - sin 45°) / cos 45°."""


@pytest.fixture
def pair(planned: Planned, hang: Hang, book: Book) -> tuple[Room, Room]:
    """A boxing of 3,000 along wall A, 225 deep and 900 high, and a WC across the corner of walls D and A, 900 along each, 1,200 high.

    By hand: the corner's front lies at 45° to wall A, so 225 out of that it is 225 nearer to the corner: the frame fronts meet 675
    along, and 225 x 1.41421 = 318.20 of the corner's front of 1,272.79 is behind the boxing. Finish: 12 of board, 24 in all; rails lie
    41 deep; battens are 38 x 63.
    """
    return stopped(planned, hang, book)


def stopped(planned: Planned, hang: Hang, book: Book, **changes: object) -> tuple[Room, Room]:
    wc = put(put(hang("wc", 0, 420), "centre", None), "on", "2")
    asked: dict[str, object] = {"survey__walls": BRICK, "survey__room__width": 3000, "survey__room__depth": 2600}
    asked |= {"design__further": (CORNER,), "design__prewall__top": 900}
    run, corner = work_out_all(planned(wc, **{**asked, **changes}), book)
    return run, corner


def face(room: Room, key: str) -> Face:
    return next(each for each in room.faces if each.key == key)


def battens(room: Room) -> list[Member]:
    return [each for each in room.members if each.what == "closing batten"]


def test_the_steel_stops_where_its_back_clears_the_front(pair: tuple[Room, Room]) -> None:
    """Rails 41 deep: at their back the front is 41 further along."""
    run, corner = pair
    assert not [problem for room in pair for problem in room.problems]
    assert (run.start.value, run.run.value, run.at_wall) == (675 + 41, 3000 - 716, (True, True))
    assert [each.key for each in run.faces] == ["front", "shelf"], "no return"
    assert corner.start.value == 41
    assert corner.run.value == pytest.approx(1272.79 - 82, abs=0.01), "the higher one goes into the corner"


def test_boards_and_tiles_go_to_the_face_of_what_they_stop_against(pair: tuple[Room, Room]) -> None:
    """Faces meet 12 x 0.41421 = 4.97 past the frame fronts, with tiles 24 x 0.41421 = 9.94."""
    run, corner = pair
    front = face(run, "front")
    assert front.width.value == pytest.approx(3000 - 675 - 12 * FACE)
    assert front.boards[0].x == pytest.approx(675 + 12 * FACE)
    assert front.boards[0].where == "Front; left edge bevelled 45° to corner"
    assert front.tiled_width.value == pytest.approx(3000 - 675 - 24 * FACE)
    assert front.tiled_left is not None
    met = run.line.in_plan(front.tiled_left.value, run.figures["finished_face"].value)
    _, out = corner.line.on_wall(met)
    assert out == pytest.approx(corner.figures["finished_face"].value, abs=0.01), "on the face of the corner's tiles"


def test_the_shelf_is_cut_to_the_angle(pair: tuple[Room, Room]) -> None:
    """The corner's boards come to the boxing's frame front 12 x 1.41421 = 16.97 past where the fronts meet, and to the wall 225 further."""
    run, _ = pair
    shelf = face(run, "shelf")
    assert shelf.width.value == pytest.approx(3000 - 675 - 12 * SQRT)
    assert shelf.area is not None
    assert shelf.area.value == pytest.approx((3000 - 675 - 12 * SQRT - 225 / 2) * 225 / 1e6)
    assert shelf.tiled_width.value == pytest.approx(3000 - 675 - 24 * FACE)
    assert shelf.tiled_area.value == pytest.approx((3000 - 675 - 24 * FACE - 249 / 2) * 249 / 1e6, abs=1e-6)
    first, *_ = shelf.boards
    assert first.where == "Shelf; left end cut 45° to corner"
    ((start, end),) = first.slants
    assert start == pytest.approx((225, 0))
    assert end == pytest.approx((0, 225))


def test_the_higher_front_is_boarded_round_its_steel_and_not_tiled_behind_it(pair: tuple[Room, Room]) -> None:
    """Steel of the boxing ends at 20 + 900 - 24 = 896, the boards begin 10 up; its tiles hide 249 x 1.41421 = 352.14 by 900."""
    _, corner = pair
    front = face(corner, "front")
    assert any("cut out 318 × 886 for wall A" in each.where for each in front.boards)
    assert front.tiled_area.value == pytest.approx((front.tiled_width.value * 1200 - 249 * SQRT * 900) / 1e6, abs=1e-5)
    ((end, deep, high),) = front.hidden
    assert (end, high.value) == (1, 900)
    assert deep.value == pytest.approx(249 * SQRT, abs=0.01)
    tiled = next(each for each in tiled_faces(corner) if each.name == "Front")
    (gap,) = tiled.gaps
    assert gap.x + gap.width == pytest.approx(tiled.width)


def test_closing_battens_stand_on_the_higher_front(pair: tuple[Room, Room]) -> None:
    """The outer edge of the upright one, 38 thick, is 38 x 0.70711 = 26.87 behind the frame front: 701.87 along.

    That is 280.20 of the corner's front from the wall. The other goes from its back edge to the wall, 3 short: 280.20 - 63 - 3.
    """
    run, corner = pair
    upright, level = battens(run)
    assert (upright.mark, upright.along, upright.length.value) == ("J1", "z", 896)
    assert upright.x == pytest.approx(675 + 38 / SQRT, abs=0.01)
    assert (level.mark, level.along) == ("J2", "x")
    assert level.length.value == pytest.approx((225 - 38 / SQRT) * SQRT - 66, abs=0.01)
    for each in (upright, level):
        x, out = corner.line.on_wall(run.line.in_plan(each.x, each.y))
        assert out == pytest.approx(corner.depth.value, abs=0.01), "on the frame front of the corner"
        assert corner.width.value - 318.20 < x < corner.width.value
    assert not battens(corner)


def test_an_upright_stands_behind_the_end_of_the_lower_front(planned: Planned, hang: Hang, book: Book) -> None:
    """1,300 from the corner its front is 1,838.48 long, the frame ends at 1,169.24: one at 1,838.48 - 318.20, half under the boards."""
    corner = stopped(planned, hang, book, design__further=(replace(CORNER, setback=Entry(1300)),))[1]
    assert any(abs(each.value - (1300 * SQRT - 225 * SQRT)) < 0.01 for each in corner.supports)


def test_nothing_stands_in_the_same_place(pair: tuple[Room, Room]) -> None:
    """In plan the two touch along the face, and together cover the corner and what of the boxing is past it."""
    shapes = [[room.line.in_plan(*place) for place in footprints.of_prewall(room)] for room in pair]
    assert area_of_shape(common(*shapes)) < 1
    areas = [area_of_shape(shape) for shape in shapes]
    out = 900 + 24 * SQRT
    assert areas == pytest.approx([249 * (3000 - (out - 249 / 2)), out * out / 2], rel=1e-6)


def test_at_the_other_side_of_the_corner_too(planned: Planned, hang: Hang, book: Book) -> None:
    """The boxing stands at wall D, which ends in the corner: of 2,600 its steel goes to 2,600 - 716."""
    run, corner = stopped(planned, hang, book, design__prewall__wall="D")
    assert (run.start.value, run.run.value) == (0, 2600 - 716)
    assert face(run, "front").width.value == pytest.approx(2600 - 675 - 12 * FACE)
    assert face(corner, "front").hidden[0][0] == 0
    *_, last = face(run, "shelf").boards
    ((start, end),) = last.slants
    assert start == pytest.approx((last.width.value - 225, 0))
    assert end == pytest.approx((last.width.value, 225))
    for each in battens(run):
        _, out = corner.line.on_wall(run.line.in_plan(each.x, each.y))
        assert out == pytest.approx(corner.depth.value, abs=0.01)


def test_a_capping_is_longest_at_its_front(planned: Planned, hang: Hang, book: Book) -> None:
    """It stands 15 over the face, and the corner's face is as much nearer there."""
    run = stopped(planned, hang, book, design__prewall__shelf=False)[0]
    assert run.capping is not None
    assert run.capping.length.value == pytest.approx(3000 - 675 - 24 * FACE + 15)


def test_to_the_ceiling_a_corner_is_higher_than_any_boxing(planned: Planned, hang: Hang, book: Book) -> None:
    full = replace(CORNER, height="full")
    run = stopped(planned, hang, book, design__further=(full,), design__prewall__top=1200)[0]
    met = run.meets[0]
    assert met is not None
    assert met.against is not None
    assert met.against.top is None


@pytest.mark.parametrize("changes", [{"design__prewall__top": 1300}, {"design__prewall__from_left": 950}, {"design__prewall__depth": 460}])
def test_a_higher_one_or_one_that_stops_short_or_is_too_deep_does_not_stop_against_it(
    planned: Planned, hang: Hang, book: Book, changes: dict[str, object]
) -> None:
    run, corner = stopped(planned, hang, book, **changes)
    assert run.meets[0] is None
    assert corner.meets == (None, None)
    assert not battens(run)


def test_what_is_hidden_of_the_higher_front_is_no_rim_of_the_floor(planned: Planned, hang: Hang, book: Book) -> None:
    """Behind: 3,000 of wall C, 2,600 - 249 of wall B, of wall D what the corner with its covering leaves: 2,600 - 900 - 24 x 1.41421."""
    run, _ = stopped(planned, hang, book, design__floor__tile="tile-600x300-white")
    assert run.floor is not None
    assert run.floor.rim.value == pytest.approx(3000 + 2600 - 249 + 2600 - 900 - 24 * SQRT, abs=0.5)
