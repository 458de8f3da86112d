"""Struts on the stud walls of a corner, behind the turned brackets of a frame across it; each wall with its own studs."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from tundish.catalogue.book import Book
from tundish.field import Entry, put
from tundish.layout.clip import common
from tundish.layout.design import Appliance, RoomPlan
from tundish.layout.room import Member, Room
from tundish.layout.work_out import work_out
from tundish.survey.wall import Side, Wall

Hang = Callable[..., Appliance]
Planned = Callable[..., RoomPlan]
Across = Callable[..., Room]
STUDS = Wall(construction="timber stud", stud_centres=Entry(400), first_stud=Entry(400))
BRICK = Wall(construction="brick")
HALF = math.sqrt(0.5)


@pytest.fixture
def across(planned: Planned, hang: Hang, book: Book) -> Across:
    """A WC across the corner of walls D, 1,800 long, and A, 2,000 long: seats of its brackets 60 behind the front, 220 aside."""

    def worked(a: Wall = STUDS, d: Wall = STUDS, setback: float = 700, **changes: object) -> Room:
        settings: dict[str, object] = {
            "design__prewall__stands": "across its left-hand corner",
            "design__prewall__setback": setback,
            "survey__wall": a,
            "survey__walls": (Side(), Side(), Side(wall=d)),
        }
        return work_out(planned(put(hang("wc", 0, 420), "centre", None), **settings, **changes), book)

    return worked


def struts(room: Room) -> list[Member]:
    return [each for each in room.members if each.what == "wall strut"]


def plan_of(room: Room, strut: Member) -> tuple[tuple[float, float], tuple[float, float]]:
    """Both ends of a strut where it lies on its wall, in plan."""
    turn, long = math.radians(strut.turn), strut.length.value
    left = room.line.in_plan(strut.x, strut.y)
    return left, room.line.in_plan(strut.x + long * math.cos(turn), strut.y + long * math.sin(turn))


def test_each_stud_wall_of_the_corner_has_a_strut_of_its_own(across: Across) -> None:
    """The seats are 434.97 out of the corner and 220 aside, so 463.14 from the corner: studs 400 and 800 of A, 1,200 and 1,600 of D.

    D's are 200 and 600 from the corner, where the void ends at 649.3: there the strut is cut back by 1. A's outer stud is beyond.
    """
    room = across()
    left, right = struts(room)
    assert (left.mark, left.length.value, left.where) == ("S1", 499, "on wall D, behind WC 1")
    assert (right.mark, right.length.value, right.where) == ("S2", 500, "on wall A, behind WC 1")
    assert plan_of(room, right)[0] == pytest.approx((350, 0), abs=0.1)
    assert plan_of(room, right)[1] == pytest.approx((850, 0), abs=0.1)
    assert plan_of(room, left)[0] == pytest.approx((0, 649), abs=0.1)
    assert plan_of(room, left)[1] == pytest.approx((0, 150), abs=0.1)
    assert [(each.z, each.section, each.role) for each in (left, right)] == [(1110 - 20.5, (41, 21), "strut")] * 2
    assert not room.problems


def test_each_strut_bears_on_its_studs_and_is_pulled_once(across: Across) -> None:
    """50 past each stud, 49 in the void of D; the bracket of A 463.14 less 350 from the strut's left end, of D 1,336.86 less 1,151."""
    left, right = struts(across())
    assert [list(each.bears) for each in (left, right)] == [[49, 449], [50, 450]]
    assert [(key, round(place, 1)) for key, place in right.pulled] == [("wc-1", 113.1)]
    assert [(key, round(place, 1)) for key, place in left.pulled] == [("wc-1", 185.9)]


def test_tie_rods_reach_to_the_struts(across: Across) -> None:
    """214.97 straight back, 152.01 square to a solid wall; a strut is 21 deep."""
    assert across().placed[0].figures["reach"].value == pytest.approx(214.975 * HALF - 21, abs=0.05)


def test_where_one_wall_is_solid_only_the_other_has_a_strut(across: Across) -> None:
    room = across(d=BRICK)
    (only,) = struts(room)
    assert only.where == "on wall A, behind WC 1"
    figures = room.placed[0].figures
    assert figures["reach"].value == pytest.approx(214.975 * HALF - 21, abs=0.05)
    assert figures["reach_left"].value == pytest.approx(214.975 * HALF, abs=0.05)
    assert "reach_left" not in across().placed[0].figures
    (other,) = struts(across(a=BRICK))
    assert other.where == "on wall D, behind WC 1"


def test_solid_walls_have_none(across: Across) -> None:
    assert not struts(across(a=BRICK, d=BRICK))


def test_self_standing_has_none(across: Across) -> None:
    assert not struts(across(design__prewall__built_of="self-standing"))


def test_in_the_corner_itself_one_stops_at_the_face_of_the_other(across: Across) -> None:
    """500 from the corner: seats 293.55 out, 363.14 along each wall; studs 1,400 and 1,800 of D, which is its end, nought and 400 of A.

    The void ends 449.3 from the corner.
    """
    room = across(d=Wall(construction="metal stud", stud_centres=Entry(400), first_stud=Entry(200)), setback=500)
    left, right = struts(room)
    assert (left.length.value, right.length.value) == (449, 450 - 21 - 1)
    assert plan_of(room, left)[1] == pytest.approx((0, 0), abs=0.1)
    assert plan_of(room, right)[0] == pytest.approx((21, 0), abs=0.1)
    assert [list(each.bears) for each in (left, right)] == [[49, 449], [0, 400 - 21]]


@pytest.mark.parametrize("corner", [60.0, 75.0, 90.0, 120.0, 150.0])
def test_no_strut_lies_in_a_wall_or_in_the_other_strut(planned: Planned, hang: Hang, book: Book, corner: float) -> None:
    """Walls of 2,000 whose first studs are 900 from the corner, so that both struts come from there; both are 21 deep."""
    wide = Wall(construction="timber stud", stud_centres=Entry(1100), first_stud=Entry(900))
    far = Wall(construction="timber stud", stud_centres=Entry(1100), first_stud=Entry(1100))
    walls = (
        Side(length=Entry(2000), corner=Entry(corner), wall=wide),
        Side(length=Entry(2000), corner=Entry(180 - corner)),
        Side(length=Entry(2000), corner=Entry(corner)),
    )
    prewall = {"design__prewall__wall": "B", "design__prewall__stands": "across its left-hand corner", "design__prewall__setback": 640}
    room = work_out(planned(put(hang("wc", 0, 420), "centre", None), survey__wall=far, survey__walls=walls, **prewall), book)
    assert room.corner is not None
    left, right = (shape(room, each) for each in struts(room))
    assert not common(left, right)
    for side in room.sides[:2]:
        assert all(side.on_wall(place)[1] > -0.1 for place in (*left, *right))
    for strut in struts(room):
        assert strut.length.value > 900


def shape(room: Room, strut: Member) -> list[tuple[float, float]]:
    """What a strut takes up in plan: along its wall, and out of it by its depth."""
    (x1, y1), (x2, y2) = plan_of(room, strut)
    out = (-(y2 - y1) / strut.length.value * strut.section[1], (x2 - x1) / strut.length.value * strut.section[1])
    return [(x1, y1), (x2, y2), (x2 + out[0], y2 + out[1]), (x1 + out[0], y1 + out[1])]


def test_on_noggins_a_strut_ends_behind_the_uprights_between_its_studs(across: Across) -> None:
    """A's studs at 400 and 800: the strut goes from 350 to 649, where the void ends; its second stud is 450 from its left end."""
    left, right = struts(across(design__prewall__backing="wall studs and noggins"))
    assert right.length.value == 299
    assert list(right.bears) == [50, 299]
    assert list(right.beside) == [50, 450]
    assert left.beside == ()
    metal = Wall(construction="metal stud", stud_centres=Entry(400), first_stud=Entry(400))
    assert struts(across(metal, design__prewall__backing="wall studs and noggins"))[1].length.value == 500
