"""The walls of a room in plan: boxes, rooms of more corners, and walls that make no room."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.catalogue.book import Book
from tundish.field import Entry
from tundish.layout.design import RoomPlan
from tundish.layout.inputs import Inputs
from tundish.layout.shape import shape_of, walls_of
from tundish.layout.walls import Shape, across, closes
from tundish.layout.work_out import work_out
from tundish.survey.survey import Shell, Survey
from tundish.survey.wall import Side, wall_letter

Planned = Callable[..., RoomPlan]


def walls(*each: tuple[float | None, float]) -> tuple[Side, ...]:
    return tuple(Side(length=None if length is None else Entry(length), corner=Entry(corner)) for length, corner in each)


def shape(*each: tuple[float | None, float], width: float = 3000, depth: float = 2000) -> tuple[Shape, list[str]]:
    inputs = Inputs("rooms.0")
    made = shape_of(Survey(room=Shell(width=Entry(width), depth=Entry(depth)), walls=walls(*each)), inputs)
    assert {problem.path for problem in inputs.problems} <= {"rooms.0.survey.walls"}
    return made, [problem.text for problem in inputs.problems]


L_SHAPED = ((2400.0, 90.0), (1200.0, 90.0), (900.0, 90.0), (1800.0, 270.0), (1500.0, 90.0))
"""Three metres along A; B 2,400 down its right, C 1,200 back, D 900 up, E 1,800 on past an outside corner, F 1,500 home."""


@pytest.mark.parametrize("each", [(), ((None, 90.0),), ((None, 90.0),) * 3])
def test_without_lengths_a_room_is_a_box(each: tuple[tuple[float | None, float], ...]) -> None:
    made, told = shape(*each)
    assert list(made.corners) == [(0, 0), (3000, 0), (3000, 2000), (0, 2000)]
    assert made.square
    assert not told


def test_a_room_of_six_walls() -> None:
    made, told = shape(*L_SHAPED)
    assert list(made.corners) == [(0, 0), (3000, 0), (3000, 2400), (1800, 2400), (1800, 1500), (0, 1500)]
    assert [side.angle for side in made.sides] == [90, 90, 90, 90, 270, 90]
    assert not told


@pytest.mark.parametrize("left", [1100.0, 1500.0])
def test_a_chimney_breast_stands_out_of_one_wall(left: float) -> None:
    """The wall goes on in one line beyond the breast: its two parts do not meet."""
    made, told = shape((2400, 90), (left, 90), (300, 90), (800, 270), (300, 270), (2200 - left, 90), (2400, 90))
    assert made.corners[3:7] == ((3000 - left, 2400), (3000 - left, 2100), (2200 - left, 2100), (2200 - left, 2400))
    assert not told


def stepped(steps: int) -> tuple[tuple[float, float], ...]:
    """A wall opposite A in steps, 300 along and 50 further from A each, from the right to the left."""
    there = [step for _ in range(steps) for step in ((300.0, 90.0), (50.0, 270.0))]
    return ((3000.0, 90.0), *there[:-1], (3000.0 + 50.0 * (steps - 1), 90.0))


@pytest.mark.parametrize("steps", [3, 5, 12, 40])
def test_a_room_may_have_any_number_of_walls(steps: int) -> None:
    made, told = shape(*stepped(steps), width=300.0 * steps)
    assert not told
    assert len(made.sides) == 2 * steps + 2
    assert made.place_of("H") == 7
    assert list(made.corners)[-1] == (0, 3000 + 50 * (steps - 1))
    assert across(made.sides, made.sides[0], 300.0 * steps - 450) == 3050


def test_walls_beyond_the_twenty_sixth_have_two_letters() -> None:
    assert [wall_letter(place) for place in (0, 7, 8, 25, 26, 27, 51, 52, 701)] == ["A", "H", "I", "Z", "AA", "AB", "AZ", "BA", "ZZ"]
    made, _ = shape(*stepped(20), width=6000)
    assert made.sides[-1].letter == "AP"
    assert walls_of(Survey(walls=walls(*stepped(20)))) == tuple(side.letter for side in made.sides)


@pytest.mark.parametrize(("each", "letters"), [((), "ABCD"), (((None, 90.0),), "ABCD"), (((900.0, 60.0), (900.0, 60.0)), "ABC")])
def test_a_box_has_four_walls_though_they_are_not_described(each: tuple[tuple[float | None, float], ...], letters: str) -> None:
    assert "".join(walls_of(Survey(walls=walls(*each)))) == letters


@pytest.mark.parametrize("blank", [(1,), (4,), (0, 1), (3, 4)])
def test_one_or_two_lengths_are_reckoned_from_the_others(blank: tuple[int, ...]) -> None:
    made, told = shape(*((None if place in blank else length, corner) for place, (length, corner) in enumerate(L_SHAPED)))
    assert list(made.corners) == [(0, 0), (3000, 0), (3000, 2400), (1800, 2400), (1800, 1500), (0, 1500)]
    assert not told


def test_a_corner_cut_off() -> None:
    made, told = shape((None, 135.0), (None, 135.0), (3400.0, 90.0), (2000.0, 90.0), width=2800)
    assert [round(x) for x, _ in made.corners] == [0, 2800, 3400, 3400, 0]
    assert [round(y) for _, y in made.corners] == [0, 0, 600, 2000, 2000]
    assert not told


def test_walls_that_do_not_close_are_told_where_and_how_far() -> None:
    made, told = shape((2000, 90), (3023, 90), (2000, 90))
    assert told == ["The walls do not close: 23 mm out at the corner of D and A. Measure lengths and corners again"]
    assert len(made.corners) == 4
    assert not shape((2000, 90), (3008, 90), (2000, 90))[1]


@pytest.mark.parametrize(
    ("each", "says"),
    [
        (((2000, 90),), "2 walls do not make a room"),
        (((2000, 90),) * 8, "do not close"),
        (((2000, 90), (3000, 90), (900, 90)), "1,100 mm out at the corner of D and A"),
        (((None, 90), (None, 90), (None, 90), (1800, 270), (1500, 90)), "The lengths of walls B and C and D are blank"),
        (((None, 90), (1200, 90), (None, 90), (1800, 270), (1500, 90)), "The lengths of walls B and D are blank"),
        (((900, 90), (1200, 90), (None, 90), (1800, 270), (1500, 90)), "no length is left for wall D"),
        (((2000, 270), (3000, 270), (2000, 270)), "go round the wrong way"),
        (((2000, 90), (1500, 90), (3000, 90), (1500, 270), (1000, 270)), ""),
    ],
)
def test_what_makes_no_room_is_told_and_its_walls_stay_what_they_are(each: tuple[tuple[float | None, float], ...], says: str) -> None:
    made, told = shape(*each)
    assert any(says in words for words in told)
    assert any("in one line" in words for words in told)
    in_line(made, each)


def in_line(made: Shape, each: tuple[tuple[float | None, float], ...]) -> None:
    """Every wall with its letter and length, one after the other, so that a place on each is a place of its own."""
    assert not closes(made.sides)
    assert [side.letter for side in made.sides] == [wall_letter(place) for place in range(len(each) + 1)]
    assert [side.length.value for side in made.sides] == [3000, *(2000 if length is None else length for length, _ in each)]
    assert [side.angle for side in made.sides[1:]] == [corner for _, corner in each]
    along = 0.0
    for side in made.sides:
        assert side.in_plan(100, 50) == pytest.approx((along + 100, 50))
        along += side.length.value


def test_walls_that_cross_are_told() -> None:
    """A square spiral: wall E comes back through wall A."""
    spiral = ((1000.0, 90.0), (1500.0, 90.0), (2000.0, 90.0), (3000.0, 90.0), (1000.0, 90.0), (1500.0, 90.0))
    made, told = shape(*spiral, width=3000)
    in_line(made, spiral)
    assert told


def test_how_far_a_room_goes_square_out_of_a_wall() -> None:
    made, _ = shape(*L_SHAPED)
    assert across(made.sides, made.sides[0], 900) == 1500
    assert across(made.sides, made.sides[0], 2400) == 2400
    assert across(made.sides, made.sides[1], 1000) == pytest.approx(3000)


def test_a_place_on_a_wall_is_the_same_place_in_plan() -> None:
    made, _ = shape(*L_SHAPED)
    for side in made.sides:
        assert side.in_plan(0, 0) == pytest.approx(side.start, abs=1e-6)
        assert side.in_plan(side.length.value, 0) == pytest.approx(side.end, abs=1e-6)
        assert side.on_wall(side.in_plan(700, 300)) == pytest.approx((700, 300))
    assert made.sides[1].in_plan(1000, 200) == pytest.approx((2800, 1000))


def test_a_room_of_more_corners_is_worked_out(planned: Planned, book: Book) -> None:
    room = work_out(planned(survey__walls=walls(*L_SHAPED), survey__room__width=3000), book)
    assert list(room.corners)[2] == (3000, 2400)
    assert room.figures["room_depth"].value == 1500
    assert not room.problems
    at_outside_corner = work_out(planned(survey__walls=walls(*L_SHAPED), survey__room__width=3000, design__prewall__wall="E"), book)
    assert at_outside_corner.at_wall == (False, True)


def test_a_prewall_in_a_corner_that_is_not_square_starts_where_its_frame_front_meets_the_wall(planned: Planned, book: Book) -> None:
    """At 135° the walls part: 225 out, the wall at the right is 225 further on."""
    cut = walls((None, 135.0), (None, 135.0), (3400.0, 90.0), (2000.0, 90.0))
    room = work_out(planned(survey__walls=cut, survey__room__width=2800), book)
    assert room.start.value == 0
    assert room.run.value == pytest.approx(2800 + 225)
    assert room.at_wall == (True, True)
