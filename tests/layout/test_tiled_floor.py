"""The floor of a room set out in tiles: round pre-walls and what stands on it, reckoned by hand, and covered whatever its shape."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.book import Book
from tundish.field import Entry
from tundish.figure import worked_again
from tundish.layout.floor_plan import area_of, free_parts, inside, part_in, rim_of
from tundish.layout.room import Room
from tundish.layout.tiled_floor import floor_choices, floor_laid, floored
from tundish.layout.work_out import work_out_all
from tundish.survey.shape import Obstacle
from tundish.survey.wall import Opening, Side

TILE = "tile-600x300-white"
TRAY = Obstacle(
    what="shower tray", name="Tray", wall="C", from_left=Entry(0), width=Entry(900), depth=Entry(800), bottom=Entry(0), height=Entry(40)
)
BOILER = Obstacle(what="boiler", wall="C", from_left=Entry(1000), width=Entry(400), depth=Entry(300), bottom=Entry(1200))
Work = Callable[..., Room]


def test_a_floor_that_is_not_tiled_has_no_set_out(work: Work) -> None:
    room = work()
    assert room.floor is None
    assert floor_laid(room) is None
    assert floor_choices(room) == ()


def test_a_box_is_tiled_up_to_the_face_of_the_pre_wall(work: Work) -> None:
    room = work(design__floor__tile=TILE)
    assert room.floor is not None
    assert (room.floor.face.width, room.floor.face.height) == (2000, 1800 - 225 - 24)  # boards 12, bed 3, tile 9
    assert room.floor.area.value == pytest.approx(2.0 * 1.551)
    assert worked_again(room.floor.area) == pytest.approx(room.floor.area.value)
    assert room.floor.rim.value == pytest.approx(2000 + 2 * 1551)  # wall C and the two sides; the front has its bead


def test_the_best_start_has_ends_alike_and_no_sliver(work: Work) -> None:
    laid = floor_laid(work(design__floor__tile=TILE))
    assert laid is not None
    (floor,) = laid.faces
    # Across: 600 on the middle, 697 left at either side, which take another whole tile and 91, a sliver; so a joint on the middle: 998.5 a
    # side is 600 + 3 + 395.5. Along 1,551: a row on the middle leaves 622.5 = 300 + 3 + 300 + 3 + 16.5, a sliver; a joint there leaves
    # 774 = 2 × 303 + 168.
    assert laid.start.name == "a joint on the middle, a joint across the middle"
    assert list(floor.ends) == pytest.approx([395.5, 395.5])
    assert list(floor.courses) == pytest.approx([168, 168])
    assert (floor.count, floor.whole) == (4 * 6, 2 * 4)
    assert laid.smallest == pytest.approx(168)
    assert laid.spoils == ()


def test_the_tiles_go_round_a_tray_and_under_what_hangs(work: Work) -> None:
    room = work(design__floor__tile=TILE, survey__obstacles=(TRAY, BOILER))
    assert room.floor is not None
    assert room.floor.face.plan is not None
    assert [each.name for each in room.floor.face.plan.stands] == ["Pre-wall", "Tray"]
    assert room.floor.area.value == pytest.approx(2.0 * 1.551 - 0.9 * 0.8)
    assert worked_again(room.floor.area) == pytest.approx(room.floor.area.value)
    laid = floor_laid(room)
    assert laid is not None
    # Seen from inside, wall C begins at its left, which is the far right of wall A.
    assert all(not (tile.x >= 1100 and tile.z + tile.height <= 800) for tile in laid.faces[0].tiles)
    assert 0 < laid.smallest <= 300


def test_a_tray_that_the_tiles_leave_slivers_beside_is_told(work: Work) -> None:
    tray = replace(TRAY, width=Entry(1950))
    laid = floor_laid(work(design__floor__tile=TILE, survey__obstacles=(tray,)))
    assert laid is not None
    assert laid.smallest == pytest.approx(50)
    assert "cut thinner than a fifth of a tile, the least 50 mm" in laid.spoils[0]


def test_another_start_is_kept_beside_the_best(work: Work) -> None:
    name = "a whole tile at the left, a whole row away from wall A"
    room = work(design__floor__tile=TILE, design__floor__tile_start=name)
    laid = floor_laid(room)
    assert laid is not None
    assert laid.start.name == name
    assert len(floor_choices(room)) == 4
    assert floor_choices(room)[-1].start.name == name
    assert len(floor_choices(work(design__floor__tile=TILE))) == 3


def test_further_pre_walls_stand_on_the_floor_too(planned: Callable[..., object], book: Book) -> None:
    from tundish.layout.design import PreWall

    further = PreWall(name="Basin wall", wall="B", from_left=Entry(800), run=Entry(900), depth=Entry(150), height="full")
    plan = planned(design__floor__tile=TILE, design__further=(further,))
    rooms = work_out_all(plan, book)  # type: ignore[arg-type]
    assert rooms[0].floor is not None
    assert rooms[1].floor is None
    assert rooms[0].floor.area.value == pytest.approx(2.0 * 1.551 - 0.9 * 0.174)
    assert worked_again(rooms[0].floor.area) == pytest.approx(rooms[0].floor.area.value)


def test_a_room_of_five_walls_is_tiled_to_its_slanting_wall(work: Work) -> None:
    walls = (
        Side(length=Entry(1800), corner=Entry(90)),
        Side(length=Entry(1400), corner=Entry(90)),
        Side(length=Entry(848.5), corner=Entry(135)),
        Side(length=Entry(1200), corner=Entry(135)),
    )
    room = work(design__floor__tile=TILE, survey__walls=walls)
    assert room.floor is not None
    assert len(room.corners) == 5
    assert room.floor.area.value == pytest.approx(2.0 * 1.551 - 0.5 * 0.6 * 0.6, abs=2e-3)
    laid = floor_laid(room)
    assert laid is not None
    assert not any(tile.x < 100 and tile.z < 100 for tile in laid.faces[0].tiles)


def test_tiles_may_start_on_a_door_that_is_opposite(work: Work) -> None:
    door = Opening(kind="door", wall="C", from_left=Entry(300), width=Entry(700), height=Entry(2000), swing="out of the room")
    aside = replace(door, wall="B")
    room = work(design__floor__tile=TILE, survey__openings=(door, aside))
    assert room.floor is not None
    # Wall C runs from right to left: 300 + 350 from its left end is 1,350 along wall A.
    assert [(name, round(x)) for name, x in room.floor.lines] == [("the door in wall C", 1350)]
    name = "a tile on the door in wall C, a row on the middle"
    laid = floor_laid(work(design__floor__tile=TILE, survey__openings=(door,), design__floor__tile_start=name))
    assert laid is not None
    assert laid.start.name == name
    assert laid.start.x == pytest.approx(1350 - 300)


def test_a_pre_wall_across_a_corner_takes_its_triangle(work: Work) -> None:
    room = work(design__floor__tile=TILE, design__prewall__stands="across its left-hand corner", design__prewall__setback=600.0)
    assert room.corner is not None
    assert room.floor is not None
    deep = room.corner.depth.value + 24
    assert room.floor.area.value == pytest.approx(2.0 * 1.8 - deep * deep / 1e6, rel=1e-6)
    assert worked_again(room.floor.area) == pytest.approx(room.floor.area.value)


def test_a_floor_all_taken_up_is_not_tiled(work: Work) -> None:
    all_of_it = replace(TRAY, width=Entry(2000), depth=Entry(1800))
    assert work(design__floor__tile=TILE, survey__obstacles=(all_of_it,)).floor is None


def test_mosaic_is_counted_by_its_area_alone(work: Work, book: Book) -> None:
    room = work(design__floor__tile=TILE)
    assert room.floor is not None
    tile = replace(book.items[TILE], sizes=dict(book.items[TILE].sizes) | {"width": (20.0, "mm"), "height": (20.0, "mm")})
    fine = replace(room, floor=replace(room.floor, tile=tile))
    assert floor_laid(fine) is None
    assert floor_choices(fine) == ()


def test_a_tile_that_the_catalogue_lacks_is_told(work: Work) -> None:
    room = work(design__floor__tile="tile-gone")
    assert room.floor is None
    assert "rooms.0.design.floor.tile" in {each.path for each in room.problems}
    assert floored((room,), Book({}, {}, {}, {}, {}, {}))[0].floor is None


places = st.tuples(st.floats(-500, 3500), st.floats(-500, 3500))
boxes = st.tuples(st.floats(0, 2800), st.floats(0, 2300), st.floats(100, 1500), st.floats(100, 1500))


def box(x: float, y: float, wide: float, deep: float) -> tuple[tuple[float, float], ...]:
    return (x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)


L_ROOM = ((0.0, 0.0), (3000.0, 0.0), (3000.0, 1500.0), (1200.0, 1500.0), (900.0, 2500.0), (0.0, 2500.0))


@given(st.lists(boxes, max_size=4), st.tuples(st.floats(0, 3000), st.floats(0, 2500), st.floats(50, 900), st.floats(50, 900)))
def test_free_parts_hold_what_is_inside_and_on_nothing(feet: list[tuple[float, ...]], tile: tuple[float, ...]) -> None:
    stands = [box(*each) for each in feet]
    parts = free_parts(L_ROOM, stands)
    assert 0 <= area_of(parts) <= 3000 * 1500 + 1050 * 1000 + 1
    x, y = tile[0] + 0.123, tile[1] + 0.321
    free = inside(L_ROOM, (x, y)) and not any(inside(each, (x, y)) for each in stands)
    found = part_in(parts, (x - 0.05, y - 0.05, x + 0.05, y + 0.05))
    if found is not None and found.area > 0.0099:
        assert free
    left, foot, right, top = tile[0], tile[1], tile[0] + tile[2], tile[1] + tile[3]
    part = part_in(parts, (left, foot, right, top))
    if part is not None:
        assert part.x >= left - 1e-6
        assert part.x + part.width <= right + 1e-6
        assert part.area <= part.width * part.height + 1e-3
    cells = [part_in(parts, (a * 500, b * 500, a * 500 + 500, b * 500 + 500)) for a in range(7) for b in range(6)]
    assert sum(each.area for each in cells if each) == pytest.approx(area_of(parts), abs=200)


def test_the_rim_goes_round_the_room_and_what_stands_there() -> None:
    parts = free_parts(L_ROOM, [box(500, 500, 400, 300)])
    round_it = 3000 + 1500 + 1800 + math.dist((1200, 1500), (900, 2500)) + 900 + 2500
    assert rim_of(parts) == pytest.approx(round_it + 1400)
