"""Wall brackets are turned by rule where a neighbour or a side wall is too near, for everything that is still open."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import settings as tests
from hypothesis import strategies as st

from tests.published.asking import room_of
from tests.rules.test_cases import the_book
from tundish.documents.block import Table
from tundish.documents.frame_sheet import settings
from tundish.field import Entry, put
from tundish.layout.bracket_turns import IN, SQUARE
from tundish.layout.design import BY_RULE
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.rules.frames.brackets import brackets
from tundish.rules.frames.reach import reach
from tundish.rules.rule import Finding


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
    assert settings_of(room, "WC 1").startswith("440 apart, fixed to the wall; turned in, only 15 to the bracket of Basin 1 otherwise")


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


def test_it_is_not_turned_where_no_tie_rod_would_fit_any_more() -> None:
    """110 deep, with 8 of pad: the WC reaches 58 square and 53 turned in, the basin 68 and 63; the shortest rod starts at 55."""
    room = row(700, 1155, **{"design.prewall.depth": 110})
    assert turns(room) == ["square to the wall", "turned in"]
    assert room.placed[0].bracket_why == "only 15 to the bracket of Basin 1, but turned in no tie rod fits its reach of 53"
    assert settings_of(room, "WC 1").startswith("440 apart, fixed to the wall; square to the wall, only 15 to the bracket of Basin 1, but")
    assert room.placed[0].figures["bracket_left"].terms[-1].figure.note.startswith("square to the wall by rule: only 15 to the bracket")
    assert said(room) == {"passes"}


def test_where_neither_can_be_had_the_check_says_which_and_how_to_get_out() -> None:
    """At 235 the bracket is 5 too near the wall; 107 deep it would reach 107 - 65 + 8 = 50 turned in, and 55 at 112."""
    room = row(235, 1600, **{"design.prewall.depth": 107})
    assert turns(room) == ["square to the wall"] * 2
    (told,) = [one for one in findings(room) if one.state != "passes"]
    assert told.message == (
        "5 short: WC 1 stays square to the wall: only 15 to the left wall, but turned in no tie rod fits its reach of 50. "
        "Set the pre-wall to another depth, or move WC 1 along the wall."
    )
    assert [(way.path.rpartition(".")[2], way.value) for way in told.ways_out] == [("depth", 112), ("centre", 240)]


def test_it_is_turned_for_the_reach_alone() -> None:
    """448 deep the WC reaches 448 - 60 + 8 = 396 square, 1 more than any rod; turned in, 391."""
    room = row(700, 1600, **{"design.prewall.depth": 448})
    assert turns(room)[0] == "turned in"
    assert room.placed[0].bracket_why == "no tie rod fits a reach of 396 otherwise"


def test_where_no_tie_rod_fits_either_way_it_makes_room_at_least() -> None:
    assert turns(row(700, 1155, **{"design.prewall.depth": 95})) == ["turned in"] * 2


def test_brackets_that_would_overlap_are_said_so() -> None:
    assert row(700, 1125).placed[0].bracket_why == "15 into the bracket of Basin 1 otherwise"


DEPTHS = st.sampled_from([*range(86, 134), 225, *range(432, 456)])


@tests(max_examples=40, deadline=None)
@given(st.sampled_from([230, 235, 245, 700]), st.integers(420, 500), st.integers(0, 30), DEPTHS, st.integers(0, 8))
def test_if_any_turn_of_the_brackets_serves_for_all_that_is_open_the_rule_finds_it(
    first: int, apart: int, spread: int, deep: int, more: int
) -> None:
    """Every way of turning both is tried by hand, at each end of what is open."""
    second = first + apart
    ends = [
        row(first, at, **{"design.prewall.depth": depth})
        for at in sorted({second - spread, second + spread})
        for depth in sorted({deep - more, deep + more})
    ]
    open_ = row(
        first,
        Entry(second, low=second - spread, high=second + spread),
        **{"design.prewall.depth": {"value": deep, "low": deep - more, "high": deep + more}},
    )
    if serves(open_, ends, (SQUARE, SQUARE)):
        assert turns(open_) == [SQUARE, SQUARE]
    else:
        by_hand = any(serves(open_, ends, each) for each in product((SQUARE, IN), repeat=2))
        assert serves(open_, ends, tuple(turns(open_))) == by_hand


@tests(max_examples=60, deadline=None)
@given(st.sampled_from([230, 245, 700]), st.integers(420, 500), DEPTHS, st.sampled_from([BY_RULE, IN, "turned out"]))
def test_every_way_out_of_brackets_and_reach_mends_what_it_is_offered_for(first: int, apart: int, deep: int, way: str) -> None:
    room = row(first, first + apart, **{"design.prewall.depth": deep, "design.appliances.0.bracket": way})
    for told in findings(room):
        for out in told.ways_out:
            value = out.value if isinstance(out.value, str) else Entry(out.value)
            after = work_out(put(room.plan, out.path.removeprefix("rooms.0."), value), the_book())
            assert {one.state for one in findings(after) if (one.title, one.place) == (told.title, told.place)} == {"passes"}, out.words


def serves(open_: Room, ends: list[Room], turn: tuple[str, ...]) -> bool:
    """Whether the brackets so turned stand clear at every end, each frame on one tie rod over the whole range."""
    rods = [one for one in findings(turned(open_, turn)) if one.title == "Tie rod reach"]
    return {one.state for one in rods} == {"passes"} and all(said(turned(each, turn)) == {"passes"} for each in ends)


def turned(room: Room, turn: tuple[str, ...]) -> Room:
    plan = room.plan
    for place, each in enumerate(turn):
        plan = put(plan, f"design.appliances.{place}.bracket", each)
    return work_out(plan, the_book())


def findings(room: Room) -> list[Finding]:
    told = [*brackets.says(room, the_book()), *reach.says(room, the_book())]
    return [one for one in told if isinstance(one, Finding)]


def said(room: Room) -> set[str]:
    return {one.state for one in findings(room)}


def settings_of(room: Room, name: str) -> str:
    (table,) = [block for block in settings(room) if isinstance(block, Table)]
    rows = [row for row in table.rows if row.cells[0] in {name, "Wall brackets"}]
    return str(rows[[row.cells[0] for row in rows].index(name) + 1].cells[2])


@pytest.mark.parametrize("way", ["turned in", "turned out", "square to the wall"])
def test_it_is_what_the_trader_chose_when_they_chose(way: str) -> None:
    room = row(700, 1600, **{"design.appliances.0.bracket": way})
    assert turns(room) == [way, "square to the wall"]
    assert replace(room.placed[0], bracket_why="") == room.placed[0]
