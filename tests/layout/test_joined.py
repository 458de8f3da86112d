"""A run along a wall joined to a pre-wall across its corner: worked by hand."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book
from tundish.field import Entry, put
from tundish.layout import footprints
from tundish.layout.clip import area_of_shape, common
from tundish.layout.design import Appliance, PreWall, RoomPlan
from tundish.layout.room import Face, Room
from tundish.layout.tiled_room import left_of, tiled_faces
from tundish.layout.tiles import Start, Tiling, around, set_out
from tundish.layout.work_out import work_out_all
from tundish.survey.wall import Side, Wall

Hang = Callable[..., Appliance]
Planned = Callable[..., RoomPlan]
BRICK = (Side(wall=Wall(construction="brick")),) * 3
CORNER = PreWall(name="corner", wall="A", stands="across its left-hand corner", setback=Entry(900), top=Entry(1200))
MITRE = math.tan(math.radians(22.5))


@pytest.fixture
def pair(planned: Planned, hang: Hang, book: Book) -> tuple[Room, Room]:
    """A run of 3,000 along wall A, 225 deep, and a WC across the corner of walls D and A, 900 along each; finish 24 thick.

    By hand: the corner's front lies at 45° to wall A, so 225 out of that it is 225 nearer to the corner: the frame fronts meet 675
    along. Aslant that is 225 x 1.41421 = 318.20 of the corner's front of 1,272.79. One turns from the other by 45°: all is mitred 22.5°.
    """
    return joined(planned, hang, book)


def joined(planned: Planned, hang: Hang, book: Book, **changes: object) -> tuple[Room, Room]:
    wc = put(put(hang("wc", 0, 420), "centre", None), "on", "2")
    asked = {"survey__walls": BRICK, "survey__room__width": 3000, "survey__room__depth": 2600, "design__further": (CORNER,)}
    run, corner = work_out_all(planned(wc, **{**asked, **changes}), book)
    return run, corner


def face(room: Room, key: str) -> Face:
    return next(each for each in room.faces if each.key == key)


def test_the_frame_fronts_meet_and_go_on_into_one_another(pair: tuple[Room, Room]) -> None:
    run, corner = pair
    assert not [problem for room in pair for problem in room.problems]
    assert (run.start.value, run.run.value, run.at_wall) == (675, 2325, (True, True))
    assert corner.start.value == 41
    assert corner.start.value + corner.run.value == pytest.approx(1272.79 - 318.20, abs=0.01)
    met = [room.line.in_plan(x, room.depth.value) for room, x in ((run, 675.0), (corner, corner.start.value + corner.run.value))]
    assert met[0] == pytest.approx(met[1], abs=0.01)
    assert [face.key for face in run.faces] == ["front", "shelf"], "no return"


def test_boards_and_tiles_meet_in_a_mitre(pair: tuple[Room, Room]) -> None:
    """24 of finish: 24 x 0.41421 = 9.94 off the tiles of both; at the far wall the corner's tiles are 24 wider."""
    run, corner = pair
    one, other = face(run, "front"), face(corner, "front")
    assert one.width.value == 2325
    assert one.tiled_width.value == pytest.approx(2325 - 9.94, abs=0.01)
    assert other.width.value == pytest.approx(954.59, abs=0.01)
    assert other.tiled_width.value == pytest.approx(954.59 + 24 - 9.94, abs=0.01)
    ends = []
    for room, left in ((run, True), (corner, False)):
        front = face(room, "front")
        assert front.tiled_left is not None
        x = front.tiled_left.value if left else front.tiled_left.value + front.tiled_width.value
        ends.append(room.line.in_plan(x, room.figures["finished_face"].value))
    assert ends[0] == pytest.approx(ends[1], abs=0.01)
    assert one.boards[0].where == "Front; left edge bevelled 22.5° to corner"
    assert other.boards[-1].where.endswith("; right edge bevelled 22.5° to wall A")


def test_the_shelf_is_mitred_and_nothing_of_it_counts_twice(pair: tuple[Room, Room]) -> None:
    """225 deep the run's is 93.20 longer at the wall than at the front. Both together are what the two cover in plan.

    Finished, a triangle of 933.94 along both walls, and beside it 249 deep from where it leaves off: 2,066.06 at the wall, 249 more at
    the face.
    """
    run, corner = pair
    assert face(run, "shelf").width.value == pytest.approx(2325 + 93.20, abs=0.01)
    assert face(run, "shelf").tiled_width.value == pytest.approx(2325 + 93.20, abs=0.01)
    together = face(run, "shelf").tiled_area.value + face(corner, "shelf").tiled_area.value
    assert together == pytest.approx((933.94**2 / 2 + 249 * (2066.06 + 249 / 2)) / 1e6, abs=1e-5)
    boards = [face(room, "shelf").area for room in pair]
    assert sum(each.value for each in boards if each is not None) == pytest.approx((900**2 / 2 + 225 * (2100 + 225 / 2)) / 1e6, abs=1e-5)
    assert face(run, "shelf").boards[0].where == "Shelf; left end mitred 22.5° to corner"
    assert min(piece.x for piece in face(run, "shelf").boards) == pytest.approx(675 - 93.20, abs=0.01)
    first, *_, last = face(run, "shelf").boards
    ((start, end),) = first.slants
    assert start == (0.0, 0.0), "from the wall to the front"
    assert end == pytest.approx((93.20, 225), abs=0.01)
    assert not last.slants


def test_the_steel_goes_up_to_the_join_on_both_sides(pair: tuple[Room, Room]) -> None:
    """Rails are 3 short at each end; an upright of 41 stands at each side of the join. Cut square they leave a wedge between them."""
    run, corner = pair
    assert next(each for each in run.members if each.what == "top rail").length.value == 2325 - 6
    (rail,) = [each for each in corner.members if each.what == "top rail"]
    assert rail.x + rail.length.value == pytest.approx(954.59 - 3, abs=0.01)
    assert min(each.x for each in run.members if each.what == "upright") == pytest.approx(675)
    last = max((each for each in corner.members if each.what == "upright"), key=lambda each: each.x)
    assert last.x + 41 == pytest.approx(954.59, abs=0.01)


def test_at_the_other_side_of_the_corner_too(planned: Planned, hang: Hang, book: Book) -> None:
    """The run stands at wall D, which ends in the corner: of 2,600 it goes to 2,600 - 675."""
    run, corner = joined(planned, hang, book, design__prewall__wall="D")
    assert (run.start.value, run.run.value) == (0, 2600 - 675)
    assert corner.start.value == pytest.approx(318.20, abs=0.01)
    front = face(corner, "front")
    assert front.tiled_left is not None
    assert front.tiled_left.value == pytest.approx(318.20 + 9.94, abs=0.01)
    assert front.boards[0].where.startswith("Front; left edge bevelled 22.5°")


def test_a_blunt_corner_is_mitred_by_its_own_angle(planned: Planned, hang: Hang, book: Book) -> None:
    """120° at the corner: the front lies at 30° to wall A, and comes forward 225 in 225 x 1.73205 = 389.71."""
    walls = (Side(), Side(), Side(corner=Entry(60)))
    lengths = put(planned(), "survey.walls", walls)
    assert lengths.survey.walls
    room = (
        Side(length=Entry(2600), corner=Entry(90)),
        Side(length=Entry(4501.11), corner=Entry(90)),
        Side(length=Entry(3002.22), corner=Entry(60)),
    )
    run, corner = joined(planned, hang, book, survey__walls=room, design__further=(put(CORNER, "setback", Entry(1000)),))
    assert run.start.value == pytest.approx(1000 - 389.71, abs=0.01)
    assert corner.joins[1] is not None
    assert corner.joins[1].mitre == 15
    met = [room.line.in_plan(x, room.depth.value) for room, x in ((run, run.start.value), (corner, corner.start.value + corner.run.value))]
    assert met[0] == pytest.approx(met[1], abs=0.05)


def test_one_that_is_started_clear_of_it_stops_short_with_a_return(planned: Planned, hang: Hang, book: Book) -> None:
    run, corner = joined(planned, hang, book, design__prewall__from_left=1000)
    assert (run.start.value, run.joins, corner.joins) == (1000, (None, None), (None, None))
    assert "return-left" in [each.key for each in run.faces]
    assert face(corner, "front").width.value == pytest.approx(1272.79, abs=0.01)


@pytest.mark.parametrize(
    ("changes", "bar"),
    [
        ({"design__prewall__height": "full"}, "heights"),
        ({"design__prewall__top": 1100}, "tops"),
        ({"design__prewall__shelf": False}, "shelves"),
        ({"design__prewall__depth": 450}, "deep"),
    ],
)
def test_what_cannot_be_joined_is_not(planned: Planned, hang: Hang, book: Book, changes: dict[str, object], bar: str) -> None:
    run, corner = joined(planned, hang, book, **changes)
    assert (run.joins, corner.joins) == ((None, None), (None, None))
    assert run.in_corners[0] is not None
    assert run.in_corners[0].bar == bar


def test_the_tiles_of_the_shelves_lie_within_them_and_follow_the_fronts(pair: tuple[Room, Room]) -> None:
    """They take fewer than the rectangle round each, and the upright joints go on from the front."""
    for room in pair:
        faces = tiled_faces(room)
        shelf = next(each for each in faces if each.corner == "above")
        assert area_of_shape(shelf.outline) / 1e6 == pytest.approx(face(room, "shelf").tiled_area.value, abs=1e-4)
        tiling = Tiling(300, 200, 2)
        front, laid = around((faces[0], shelf), tiling, Start(40, 0, "so"))
        square = set_out(replace(shelf, outline=()), tiling, laid.start)
        assert laid.count < square.count or (room.corner is None and laid.count == square.count)
        assert sum(tile.width * tile.height for tile in laid.tiles) >= area_of_shape(shelf.outline) * 0.98
        left = {"run": 675 - 93.20, "corner": -24.0}["run" if room.corner is None else "corner"]
        joint = front.tiling.across + front.start.x + left_of(room)
        assert any(abs(left + column.at - joint) < 0.01 for column in laid.columns[0])


def test_the_shelf_of_one_across_a_corner_alone_is_tiled_as_the_triangle_it_is(planned: Planned, hang: Hang, book: Book) -> None:
    _, corner = joined(planned, hang, book, design__prewall__from_left=1000)
    shelf = next(each for each in tiled_faces(corner) if each.corner == "above")
    assert len(shelf.outline) == 3
    assert area_of_shape(shelf.outline) == pytest.approx(933.94**2 / 2, rel=1e-4)


@given(st.tuples(st.integers(60, 150), st.integers(400, 2400), st.integers(120, 500)), st.booleans())
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_whatever_the_corner_two_that_are_joined_meet_and_cover_the_floor_once(
    planned: Planned, hang: Hang, book: Book, sizes: tuple[int, int, int], on_a: bool
) -> None:
    angle, setback, depth = sizes
    further = replace(CORNER, setback=Entry(setback), wall="A")
    walls = tuple(Side(length=Entry(6000), corner=Entry(each)) for each in (180 - angle, angle, 180 - angle))
    asked = {
        "survey__room__width": 6000, "survey__walls": walls, "design__further": (further,), "design__prewall__depth": depth,
        "design__prewall__wall": "A" if on_a else "D",
    }  # fmt: skip
    run, corner = joined(planned, hang, book, **asked)
    assert corner.corner is not None
    assert run.sides[0].angle == angle
    end = 0 if on_a else 1
    join, other = run.joins[end], corner.joins[1 - end]
    assert (join is None) == (other is None)
    if join is None:
        assert run.in_corners[end] is not None
        return
    for level in (0, 1):  # at the frame fronts and at the face of the tiles
        met = []
        for room, place in ((run, end), (corner, 1 - end)):
            ends, out = (
                (footprints.front(room), room.depth.value) if level == 0 else (footprints.ends(room), room.figures["finished_face"].value)
            )
            met.append(room.line.in_plan(ends[place], out))
        assert met[0] == pytest.approx(met[1], abs=0.05)
    feet = [tuple(room.line.in_plan(*place) for place in footprints.of_prewall(room)) for room in (run, corner)]
    assert area_of_shape(common(*feet)) < 60, "nothing is in both but what rounding leaves"
    for room, foot in zip((run, corner), feet, strict=True):
        assert face(room, "shelf").tiled_area.value == pytest.approx(area_of_shape(foot) / 1e6, rel=2e-4)
        assert all(room.line.on_wall(place)[1] >= -0.01 for place in foot) or room.corner is not None
