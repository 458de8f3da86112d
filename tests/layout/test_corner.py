"""A pre-wall across a corner: its front, the triangle behind it, and how far its turned brackets reach."""

from __future__ import annotations

import math
from collections.abc import Callable

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
