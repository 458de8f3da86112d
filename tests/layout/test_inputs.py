"""What was typed and cannot be used is bounded and told, with its path and words to mend it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from tundish.catalogue.book import Book, NotInBookError
from tundish.field import Entry, NoSuchInputError, put
from tundish.layout.design import RoomPlan
from tundish.layout.inputs import Inputs
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.survey.pipes import Stack
from tundish.survey.survey import Shell

Work = Callable[..., Room]


@pytest.mark.parametrize(
    ("typed", "used", "words"),
    [
        (Entry(0), 300, "Width along wall A: 0 is under the least, 300; 300 is used until it is put right"),
        (Entry(1e6), 40_000, "Width along wall A: 1,000,000 is over the most, 40,000; 40,000 is used until it is put right"),
        (Entry(500, low=-5, high=500), 500, "Width along wall A: −5 is under the least, 300; 300 is used until it is put right"),
        (Entry(1e300), 40_000, "Width along wall A: 1e+300 is over the most, 40,000; 40,000 is used until it is put right"),
        (Entry(math.nan), 1_800, "Width along wall A: this is not a number that can be measured; type it again"),
        (Entry(math.inf), 1_800, "Width along wall A: this is not a number that can be measured; type it again"),
    ],
)
def test_out_of_bounds(typed: Entry, used: float, words: str) -> None:
    inputs = Inputs("rooms.3")
    found = inputs.sure(Shell(width=typed), "width", "survey.room")
    assert found.value == used
    assert found.tbc
    assert [(each.path, each.text) for each in inputs.problems] == [("rooms.3.survey.room.width", words)]


def test_within_bounds_nothing_is_told() -> None:
    inputs = Inputs("rooms.0")
    assert inputs.sure(Shell(width=Entry(2380)), "width", "survey.room").value == 2380
    assert inputs.number(Stack(), "branch_invert", "survey.stack") is None
    assert not inputs.problems


def test_an_input_without_a_usual_size_may_not_be_relied_on() -> None:
    with pytest.raises(NoSuchInputError):
        Inputs("rooms.0").sure(Stack(), "branch_invert", "survey.stack")


def test_part_of_a_layer_is_a_whole_one(work: Work) -> None:
    room = work(design__finish__layers=1.5)
    assert room.figures["boards"].value == 24  # 2 × 12
    assert [each.text for each in room.problems] == ["Layers of board: 1.5 should be a whole number; 2 is used until it is put right"]


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("", "No board is chosen: choose one"),
        ("slate", "The catalogue does not hold 'slate': choose another board"),
        ("pan", "pan is not a board: choose one"),
    ],
)
def test_an_item_that_there_is_not_is_stood_in_for(work: Work, code: str, words: str) -> None:
    room = work(design__finish__board=code)
    assert room.board.code == "board-cement-12"
    assert [(each.path, each.text) for each in room.problems] == [("rooms.0.design.finish.board", words)]


def test_what_stands_in_has_all_its_sizes(book: Book, plain: RoomPlan) -> None:
    sizeless = replace(book.item("board-cement-12"), code="a-board", name="A board", sizes={})
    room = work_out(put(plain, "design.finish.board", "a-board"), replace(book, items={**book.items, "a-board": sizeless}))
    assert room.board.code == "board-cement-12"
    assert [each.text for each in room.problems] == ["The catalogue gives no thickness for A board: add them from the sheet"]


def test_a_book_without_any_board_is_a_fault_of_the_book(book: Book, plain: RoomPlan) -> None:
    bare = replace(book, items={code: item for code, item in book.items.items() if item.kind != "board"})
    with pytest.raises(NotInBookError):
        work_out(plain, bare)
