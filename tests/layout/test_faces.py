"""The surfaces of a pre-wall 1,200 high and 225 deep with 24 of boards and tiles, 20 of floor to come."""

from __future__ import annotations

from collections.abc import Callable

from tundish.field import Entry
from tundish.layout.design import Appliance
from tundish.layout.room import Face, Room
from tundish.survey.floor import Layer

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def sizes(face: Face) -> tuple[float, float, float, float]:
    return face.width.value, face.height.value, face.tiled_width.value, face.tiled_height.value


def test_front_and_shelf_between_walls(work: Work, hang: Hang) -> None:
    front, shelf = work(hang("wc", 1000)).faces
    assert sizes(front) == (2000, 1186, 2000, 1200)  # boards 1,196 − 10
    assert sizes(shelf) == (2000, 225, 2000, 249)
    assert (front.tiled_area.value, front.tiled_area.unit) == (2.4, "m²")
    assert shelf.tiled_area.value == 0.498
    assert [(each.mark, each.width.value, each.height.value) for each in (*front.boards, *shelf.boards)] == [
        ("B1", 770, 1186),
        ("B2", 460, 1186),
        ("B3", 770, 1186),
        ("B4", 770, 225),  # the leg at 770, the furthest within 1,200; then the upright at 1,604.75
        ("B5", 834.75, 225),
        ("B6", 395.25, 225),
    ]
    assert [(each.x, each.z) for each in front.boards] == [(0, 10), (770, 10), (1230, 10)]


def test_returns_at_free_ends(work: Work) -> None:
    room = work(design__prewall__from_left=200, design__prewall__run=1600)
    assert [face.key for face in room.faces] == ["front", "shelf", "return-left", "return-right"]
    assert sizes(room.faces[2]) == (225, 1186, 249, 1200)
    assert [(each.width.value, each.height.value, each.where) for each in room.faces[3].boards] == [(225, 1186, "Right return")]


def test_each_layer_has_its_own_pieces(work: Work, hang: Hang) -> None:
    front = work(hang("wc", 1000), design__finish__layers=2, design__finish__board="board-cement-6").faces[0]
    assert [each.mark for each in front.boards] == ["B1", "B2", "B3", "B4", "B5", "B6"]
    assert [each.where for each in front.boards] == ["Front, layer 1"] * 3 + ["Front, layer 2"] * 3
    assert [each.mark for each in front.seen] == ["B4", "B5", "B6"]


def test_joints_of_a_second_layer_are_on_other_supports(work: Work, hang: Hang) -> None:
    front = work(hang("wc", 500), design__finish__layers=2).faces[0]
    one, two = ({piece.x for piece in front.boards if piece.layer == layer} - {front.boards[0].x} for layer in (1, 2))
    assert one
    assert two
    assert not one & two


def test_a_piece_to_the_end_moves_with_the_room_s_width(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000), survey__room__width=Entry(2000, low=1990, high=2005))
    assert room.figures["B3.width"].tbc
    assert (room.figures["B3.width"].low, room.figures["B3.width"].high) == (760, 775)
    assert room.figures["B2.width"].settled


def test_a_pre_wall_of_no_depth_has_a_shelf_of_tiles_only(work: Work) -> None:
    shelf = work(design__prewall__depth=0).faces[1]
    assert sizes(shelf) == (2000, 0, 2000, 24)
    assert not shelf.boards


def test_a_floor_built_up_past_the_ceiling_leaves_nothing_to_tile(work: Work) -> None:
    layers = tuple(Layer(thickness=Entry(300)) for _ in range(9))  # 2,700 in a room 2,400 high
    front = work(design__prewall__height="full", survey__floor__build_up=layers).faces[0]
    assert front.tiled_height.value == 0
    assert front.tiled_area.value == 0
