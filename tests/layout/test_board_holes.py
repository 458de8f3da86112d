"""Holes through the boards: where the studs and pipes of an appliance go through, piece by piece."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from tundish.layout.board_holes import holes_in
from tundish.layout.design import Appliance
from tundish.layout.room import Room

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def test_the_holes_of_a_pan_are_in_the_board_before_its_frame(work: Work, hang: Hang) -> None:
    """The pan is 1,000 from the wall, its studs 180 apart; the board before it starts at 770 and 10 over the floor."""
    room = work(hang("wc", 1000))
    board = next(piece for piece in room.faces[0].boards if piece.x <= 1000 < piece.x + piece.width.value)
    found = {hole.name: hole for hole in holes_in(room, board)}
    assert set(found) == {"WC 1 left stud", "WC 1 right stud", "WC 1 outlet", "WC 1 inlet"}
    pan = room.placed[0]
    assert found["WC 1 outlet"].x == pytest.approx(1000 - board.x)
    assert found["WC 1 outlet"].z == pytest.approx(pan.figures["outlet"].value - board.z)
    assert found["WC 1 right stud"].x - found["WC 1 left stud"].x == pytest.approx(180)
    assert all(not holes_in(room, piece) for piece in room.faces[0].boards if piece is not board)


def test_a_hole_on_a_joint_is_in_both_boards(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000))
    board = next(piece for piece in room.faces[0].boards if piece.x <= 1000 < piece.x + piece.width.value)
    left = replace(board, width=board.width - (board.width - 230).named("Beyond the pan's middle"))
    right = replace(board, x=left.x + left.width.value, width=board.width - left.width)
    for piece in (left, right):
        assert "WC 1 outlet" in {hole.name for hole in holes_in(room, piece)}
