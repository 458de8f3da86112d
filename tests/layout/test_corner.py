"""A pre-wall across a corner: its front, the triangle behind it, and how far its turned brackets reach."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest

from tundish.catalogue.book import Book
from tundish.field import Entry, put
from tundish.layout.design import Appliance, RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.survey.wall import Side, Wall

Hang = Callable[..., Appliance]
Planned = Callable[..., RoomPlan]
BRICK = (Side(wall=Wall(construction="brick")),) * 3
ACROSS = {"design__prewall__stands": "across its left-hand corner", "design__prewall__setback": 700, "survey__walls": BRICK}


@pytest.fixture
def room(planned: Planned, hang: Hang, book: Book) -> Room:
    """A WC across a square corner, 700 from it along each wall."""
    return work_out(planned(put(hang("wc", 0, 420), "centre", None), **ACROSS), book)


def test_the_front_is_a_chord_and_stands_half_of_it_out_of_a_square_corner(room: Room) -> None:
    assert room.width.value == pytest.approx(700 * math.sqrt(2), abs=0.01)
    assert room.depth.value == pytest.approx(700 / math.sqrt(2), abs=0.01)
    assert room.at_wall == (True, True)
    assert room.line.in_plan(0, room.depth.value) == pytest.approx((0, 700), abs=0.01)
    assert room.line.in_plan(room.width.value, room.depth.value) == pytest.approx((700, 0), abs=0.01)
    assert not room.problems


def test_the_appliance_stands_in_the_middle(room: Room, planned: Planned, hang: Hang, book: Book) -> None:
    assert room.placed[0].centre.value == pytest.approx(room.width.value / 2)
    aside = work_out(planned(hang("wc", 300, 420), **ACROSS), book)
    assert aside.placed[0].centre.value == pytest.approx(room.width.value / 2)
    assert [problem.path for problem in aside.problems] == ["rooms.0.design.appliances.0.centre"]


def test_turned_brackets_reach_square_to_the_walls(room: Room) -> None:
    """Bracket seats 60 behind the front, 220 each side: 494.97 less 60 and 220 is 214.97 straight back, 152.01 square to it."""
    assert room.placed[0].figures["reach"].value == pytest.approx(214.975 * math.sin(math.radians(45)), abs=0.05)


def test_the_steel_ends_where_its_back_meets_the_walls(room: Room) -> None:
    """Rails of strut 41 wide lie flat and are cut square: 41 off each end at 45°."""
    assert room.start.value == pytest.approx(41)
    assert room.run.value == pytest.approx(room.width.value - 82)
    assert room.corner is not None
    for member in (each for each in room.members if each.along != "y"):
        wide = member.length.value if member.along == "x" else member.section[0]
        assert member.y >= max(room.corner.behind(member.x), room.corner.behind(member.x + wide)) - 1e-6, member.mark


def test_timber_ends_where_its_back_meets_the_walls(planned: Planned, hang: Hang, book: Book) -> None:
    """Plates 63 deep: 63 off each end at 45°."""
    room = work_out(planned(put(hang("wc", 0, 420), "centre", None), **ACROSS, design__prewall__built_of="timber"), book)
    assert room.start.value == pytest.approx(63)


def test_ties_end_at_the_wall_behind_them(planned: Planned, book: Book) -> None:
    """Cut square, they end where their edge nearer the wall meets it."""
    room = work_out(planned(**ACROSS), book)
    assert room.corner is not None
    ties = [member for member in room.members if member.what == "wall tie"]
    assert ties
    for tie in ties:
        assert tie.y == pytest.approx(max(room.corner.behind(tie.x), room.corner.behind(tie.x + tie.section[0])) + 21, abs=0.1)
        assert tie.length.value > 0


def test_the_shelf_is_a_triangle(room: Room) -> None:
    shelf = next(face for face in room.faces if face.key == "shelf")
    assert shelf.tiled_area.value == pytest.approx(shelf.tiled_width.value * shelf.tiled_height.value / 2e6)
    front = room.faces[0]
    assert (shelf.width.value, shelf.tiled_width.value) == (front.width.value, front.tiled_width.value)
    assert front.width.value == pytest.approx(room.width.value)
    assert front.tiled_width.value == pytest.approx(room.width.value + 2 * 24)


def test_a_corner_too_sharp_or_too_flat_is_told_and_the_prewall_stands_along_the_wall(planned: Planned, book: Book) -> None:
    triangle = (Side(length=Entry(2000)), Side(corner=Entry(45)))
    room = work_out(planned(**{**ACROSS, "survey__walls": triangle}), book)
    assert room.corner is None
    assert [problem.path for problem in room.problems] == ["rooms.0.design.prewall.stands"]


def test_the_shelf_is_a_triangle_whose_halves_come_from_one_rectangle(room: Room) -> None:
    shelf = next(each for each in room.faces if each.key == "shelf")
    assert sum(piece.width.value * piece.height.value for piece in shelf.boards) == pytest.approx(
        shelf.width.value * room.depth.value / 2, abs=0.1
    )
    assert all(piece.where == "Shelf, a triangle, sawn corner to corner into its two halves" for piece in shelf.boards)


def test_the_stack_behind_the_front_is_where_it_stands(room: Room) -> None:
    """150 along wall A and 130 out of it: (150 - 130) x 0.70711 right of the middle, (150 + 130) x 0.70711 out of the corner."""
    x, out = room.figures["stack"].value, room.figures["stack_from_wall"].value
    assert room.line.in_plan(x, out) == pytest.approx((150, 130), abs=0.01)
    assert x == pytest.approx(room.width.value / 2 + 14.14, abs=0.01)
    assert out == pytest.approx(197.99, abs=0.01)


def test_a_branch_in_the_corner_goes_along_the_front_to_the_stack(room: Room) -> None:
    """14.14 aside is less than any branch: 150 is the least. It lies at the stack's own 197.99 out of the corner."""
    (branch,) = room.pipes_of("soil")
    assert branch.run.value == 150
    assert branch.route[-1][:2] == pytest.approx((room.width.value / 2 + 14.14, 197.99), abs=0.01)
    assert branch.from_wall is not None
    assert branch.from_wall.value == pytest.approx(197.99, abs=0.01)


@pytest.mark.parametrize("angle", [60.0, 90.0, 120.0])
def test_a_branch_to_a_stack_past_the_corner_goes_along_its_wall(planned: Planned, hang: Hang, book: Book, angle: float) -> None:
    """Its straight pieces are as long as its run, which ends where the stack was measured, 1,500 along wall B and 130 out of it."""
    walls = (Side(length=Entry(2000), corner=Entry(angle)), Side(length=Entry(2000), corner=Entry(180 - angle)), Side(corner=Entry(angle)))
    asked = {
        **ACROSS,
        "design__prewall__wall": "B",
        "survey__walls": walls,
        "survey__stack__wall": "B",
        "survey__stack__from_left": Entry(1500),
    }
    room = work_out(planned(put(hang("wc", 0, 420), "centre", None), **asked), book)
    (branch,) = room.pipes_of("soil")
    places = [room.line.in_plan(x, y) for x, y, _ in branch.route[1:]]
    assert sum(math.dist(one, other) for one, other in pairwise(places)) == pytest.approx(branch.run.value, abs=0.01)
    assert room.sides[1].on_wall(places[-1]) == pytest.approx((1500, 130), abs=0.01)
    assert branch.bends == ("behind WC 1", "in the corner")


def test_a_supply_in_the_corner_keeps_to_its_wall(room: Room) -> None:
    (cold,) = room.pipes_of("cold")
    out = cold.from_wall
    assert out is not None
    places = [room.line.in_plan(x, y) for x, y, _ in cold.route if y < room.depth.value]
    assert [min(place) for place in places] == pytest.approx([out.value] * len(places), abs=0.01)


def test_a_stack_before_the_front_right_in_the_corner_is_worked_out(planned: Planned, hang: Hang, book: Book) -> None:
    """It stands as far along as the pan, 900 out of the wall: outside the triangle, and none of the way is along the front."""
    wc = put(hang("wc", 0, 420), "centre", None)
    room = work_out(planned(wc, **ACROSS, survey__stack__from_left=Entry(0), survey__stack__from_wall=Entry(900)), book)
    assert room.outfalls[0].from_left.value == pytest.approx(room.placed[0].centre.value)
    assert room.pipes_of("soil")[0].route


def test_the_board_of_the_shelf_says_how_it_is_sawn_out_of_its_rectangle(room: Room) -> None:
    """The two halves of the triangle lie in a rectangle half as long as the front."""
    (piece,) = next(face for face in room.faces if face.key == "shelf").boards
    assert piece.where == "Shelf, a triangle, sawn corner to corner into its two halves"
    assert piece.width.value == pytest.approx(room.width.value / 2)
    ((start, end),) = piece.slants
    assert start == (0.0, 0.0)
    assert end == pytest.approx((piece.width.value, piece.height.value))


def test_a_triangle_larger_than_a_sheet_is_sawn_along_its_whole_length(planned: Planned, book: Book) -> None:
    """1,300 from the corner its halves lie in 919.24 × 919.24, of sheets of 1,200 × 800: each piece is sawn on from the one before."""
    room = work_out(planned(**{**ACROSS, "design__prewall__setback": Entry(1300), "survey__room__width": 3000}), book)
    left, right = next(face for face in room.faces if face.key == "shelf").boards
    assert left.where == "Shelf, a triangle; of 919 × 919 sawn corner to corner into its two halves"
    ((start, end),), wide = left.slants, left.width.value
    assert start == (0.0, 0.0)
    assert end == pytest.approx((wide, wide))
    ((start, end),) = right.slants
    assert start == pytest.approx((0.0, wide))
    assert end == pytest.approx((919.24 - wide, 919.24), abs=0.01)
