"""Wall brackets are turned by rule where a neighbour or a side wall is too near, for everything that is still open."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import settings as tests
from hypothesis import strategies as st

from tests.published.asking import room_of
from tundish.documents.block import Table
from tundish.documents.frame_sheet import settings
from tundish.field import Entry
from tundish.layout.room import Room

CLEAR = 20
"""frames.bracket_clear."""


def row(first: object, second: object, **more: Any) -> Room:
    """The WC and the basin of the plain room at these centres, brackets 440 apart, turning 30."""
    return room_of({"design.appliances.0.centre": first, "design.appliances.1.centre": second} | more)[0]


def turns(room: Room) -> list[str]:
    return [each.choice.bracket for each in room.placed]


def test_with_room_between_them_they_stay_square() -> None:
    """Centres 480 apart leave 40 between brackets 220 aside of each."""
    assert turns(row(700, 1180)) == ["square to the wall"] * 2


def test_too_near_one_another_both_are_turned_in_and_it_says_why() -> None:
    """455 apart leave 15; turned in by 30 each, 75."""
    room = row(700, 1155)
    assert turns(room) == ["turned in"] * 2
    assert room.placed[1].figures["bracket_left"].value - room.placed[0].figures["bracket_right"].value == 75
    assert room.placed[0].bracket_why == "only 15 to the bracket of Basin 1 otherwise"
    (table,) = [block for block in settings(room) if isinstance(block, Table)]
    told = next(str(each.cells[2]) for each in table.rows if each.cells[0] == "Wall brackets")
    assert told.startswith("440 apart, fixed to the wall; turned in, only 15 to the bracket of Basin 1 otherwise")


def test_a_side_wall_turns_those_beside_it() -> None:
    assert turns(row(235, 1600)) == ["turned in", "square to the wall"]
    assert turns(row(700, 2400 - 235)) == ["square to the wall", "turned in"]


def test_what_the_trader_chose_stays_and_the_other_makes_room() -> None:
    kept = row(700, 1155, **{"design.appliances.0.bracket": "square to the wall"})
    assert turns(kept) == ["square to the wall", "turned in"]
    assert kept.placed[0].bracket_why == ""


def test_a_centre_still_open_turns_them_for_its_whole_range() -> None:
    assert turns(row(700, Entry(1180, low=1150, high=1210))) == ["turned in"] * 2


def test_a_self_standing_pre_wall_turns_nothing() -> None:
    assert turns(row(700, 1155, **{"design.prewall.built_of": "self-standing"})) == ["square to the wall"] * 2


@tests(max_examples=30, deadline=None)
@given(st.integers(400, 800), st.integers(800, 2_000), st.integers(0, 60))
def test_the_choice_serves_wherever_the_open_centre_ends_up(first: int, second: int, spread: int) -> None:
    open_ = row(first, Entry(second, low=second - spread, high=second + spread))
    if turns(open_) != ["square to the wall"] * 2:
        return
    for end in (second - spread, second + spread):
        one, other = row(first, end).placed
        assert other.figures["bracket_left"].value - one.figures["bracket_right"].value >= CLEAR


@pytest.mark.parametrize("way", ["turned in", "turned out", "square to the wall"])
def test_it_is_what_the_trader_chose_when_they_chose(way: str) -> None:
    room = row(700, 1600, **{"design.appliances.0.bracket": way})
    assert turns(room) == [way, "square to the wall"]
    assert replace(room.placed[0], bracket_why="") == room.placed[0]
