"""Two pre-walls in one corner: who goes into it, and where the other stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from tundish.catalogue.book import Book
from tundish.field import Entry
from tundish.layout.design import PreWall, RoomPlan
from tundish.layout.room import Face, Room
from tundish.layout.tiled_room import tiled_faces
from tundish.layout.tiles import Gap, Start, Tiling, set_out
from tundish.layout.work_out import work_out_all
from tundish.survey.wall import Side, Wall

Planned = Callable[..., RoomPlan]
BRICK = (Side(wall=Wall(construction="brick")),) * 3


def worked(planned: Planned, book: Book, *further: PreWall, **changes: Any) -> tuple[Room, ...]:
    """A room of 2,000 by 1,800; finish 24 thick: 12 of board, 3 of bed, 9 of tile."""
    rooms = work_out_all(planned(survey__walls=BRICK, design__further=further, **changes), book)
    assert not [problem for room in rooms for problem in room.problems]
    return rooms


def face(room: Room, key: str) -> Face:
    return next(each for each in room.faces if each.key == key)


def test_of_two_as_high_the_first_goes_into_the_corner(planned: Planned, book: Book) -> None:
    one, two = worked(planned, book, PreWall(wall="B", depth=Entry(180), top=Entry(1200)))
    assert (one.start.value, one.run.value) == (0, 2000)
    assert (two.start.value, two.run.value) == (225, 1800 - 225)
    assert two.start.terms or two.start.label
    assert one.at_wall == two.at_wall == (True, True)


def test_nothing_is_boarded_or_tiled_twice_where_they_meet(planned: Planned, book: Book) -> None:
    one, two = worked(planned, book, PreWall(wall="B", depth=Entry(180), top=Entry(1200)))
    assert face(one, "front").width.value == 2000 - 180
    assert face(one, "front").tiled_width.value == 2000 - (180 + 24)
    assert face(two, "front").width.value == 1575 - 12
    assert face(two, "front").tiled_width.value == 1575 - 24
    assert min(piece.x for piece in face(two, "front").boards) == 225 + 12


def test_the_higher_one_goes_into_the_corner_and_is_boarded_in_full(planned: Planned, book: Book) -> None:
    one, two = worked(planned, book, PreWall(wall="B", depth=Entry(180), height="full"))
    assert (one.start.value, one.run.value) == (0, 2000 - 180)
    assert (two.start.value, two.run.value) == (0, 1800)
    assert face(two, "front").width.value == 1800
    assert face(one, "front").width.value == 1820 - 12
    assert face(one, "shelf").tiled_width.value == 1820 - 24


def test_what_the_lower_one_hides_of_the_higher_is_neither_tiled_nor_boarded(planned: Planned, book: Book) -> None:
    """180 + 24 deep and 900 high of tiles; boards are cut out round its steel, which ends at 20 + 900 − 24."""
    one, two = worked(planned, book, PreWall(wall="B", depth=Entry(180), top=Entry(900)))
    front = face(one, "front")
    assert (front.width.value, front.tiled_width.value) == (2000, 2000)
    assert front.tiled_area.value == pytest.approx(2.4 - 0.204 * 0.9)
    *_, last, end = front.boards  # the joint is over an upright at 1,979.5
    assert (last.where, end.where) == (
        "Front; cut out 159.5 × 886 for wall B, 624 in, 0 up",
        "Front; cut out 20.5 × 886 for wall B, 0 in, 0 up",
    )
    assert (face(two, "shelf").width.value, face(two, "shelf").tiled_width.value) == (1575 - 12, 1575 - 24)
    assert min(piece.x for piece in face(two, "shelf").boards) == 225 + 12
    assert tiled_faces(one)[0].gaps == (Gap(2000 - 204, 0, 204, 900),)
    assert tiled_faces(two)[0].gaps == ()


def test_no_tile_is_laid_where_the_lower_one_hides_the_whole_of_it(planned: Planned, book: Book) -> None:
    """Tiles of 298 and 2 from the left: the seventh of a course begins at 1,800, past 2,000 − 204; three courses end by 898."""
    front = tiled_faces(worked(planned, book, PreWall(wall="B", depth=Entry(180), top=Entry(900)))[0])[0]
    small, start = Tiling(298, 298, 2), Start(0, 0)
    assert set_out(replace(front, gaps=()), small, start).count - set_out(front, small, start).count == 3


def test_at_the_left_hand_corner_too(planned: Planned, book: Book) -> None:
    one, two = worked(planned, book, PreWall(wall="D", depth=Entry(150), top=Entry(900)))
    assert (one.start.value, one.run.value) == (0, 2000)
    assert (two.start.value, two.run.value) == (0, 1800 - 225)
    assert tiled_faces(one)[0].gaps == (Gap(0, 0, 174, 900),)


def test_round_three_walls(planned: Planned, book: Book) -> None:
    further = (PreWall(wall="B", depth=Entry(200), top=Entry(1200)), PreWall(wall="C", depth=Entry(100), top=Entry(400)))
    one, two, three = worked(planned, book, *further)
    assert (two.start.value, two.run.value) == (225, 1575)
    assert (three.start.value, three.run.value) == (200, 1800)
    assert one.run.value == 2000


def test_one_that_stops_short_of_the_corner_meets_nothing(planned: Planned, book: Book) -> None:
    one, two = worked(planned, book, PreWall(wall="B", depth=Entry(180), top=Entry(1200)), design__prewall__run=1500)
    assert (one.run.value, one.at_wall) == (1500, (True, False))
    assert (two.start.value, two.run.value) == (0, 1800)


def test_a_run_to_the_corner_in_figures_ends_at_the_other(planned: Planned, book: Book) -> None:
    rooms = worked(planned, book, PreWall(wall="B", depth=Entry(180), height="full"), design__prewall__run=2000)
    assert rooms[0].run.value == 2000 - 180


def test_a_low_boxing_without_appliances_is_framed_boarded_and_tiled(planned: Planned, book: Book) -> None:
    boxing = worked(planned, book, PreWall(name="boxing", wall="C", depth=Entry(120), top=Entry(350), run=Entry(1200)))[1]
    assert {member.what for member in boxing.members} == {"upright", "top rail", "floor rail", "wall tie"}
    assert [each.key for each in boxing.faces] == ["front", "shelf", "return-right"]
    assert not boxing.placed
