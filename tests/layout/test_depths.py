"""The chain of depths: 12 of board, 3 of bed, 9 of tile on a pre-wall 225 deep."""

from __future__ import annotations

from collections.abc import Callable

from tundish.layout.room import Room

Work = Callable[..., Room]


def test_covering_and_finished_face(work: Work) -> None:
    room = work()
    assert room.thickness.value == 24  # 12 + 3 + 9
    assert room.thickness.settled
    assert room.figures["finished_face"].value == 249  # 225 + 24


def test_boards_count_once_a_layer(work: Work) -> None:
    room = work(design__finish__layers=2, design__finish__board="board-cement-6")
    assert room.figures["boards"].value == 12  # 2 × 6
    assert room.thickness.value == 24


def test_layers_left_blank_are_one_and_to_be_confirmed(work: Work) -> None:
    room = work(design__finish__layers=None)
    assert room.thickness.value == 24
    assert room.thickness.tbc
