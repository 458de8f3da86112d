"""The members of a pre-wall of strut 41 × 21, worked by hand: top of steel 1,196, 225 deep, one frame in the middle of 2,000."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from tundish.catalogue.book import Book
from tundish.layout.design import Appliance, RoomPlan
from tundish.layout.room import Member, Room
from tundish.layout.work_out import work_out

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def members(room: Room, letter: str) -> list[Member]:
    return [each for each in room.members if each.mark.startswith(letter)]


def lengths(room: Room, letter: str) -> list[float]:
    return [each.length.value for each in members(room, letter)]


def test_lengths(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000))
    assert lengths(room, "U") == [1154] * 4  # 1,196 − 21 − 21
    assert lengths(room, "T") == [1994]  # 2,000 − 3 − 3
    assert lengths(room, "F") == [747, 747]  # 750 − 3 at the wall
    assert lengths(room, "W") == [183] * 4  # 225 − 21 − 21, one to each upright
    assert {each.role for each in room.members} == {"strut"}
    assert [room.figures[mark].value for mark in ("U4", "T1", "F2", "W4")] == [1154, 1994, 747, 183]


def test_places(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000))
    upright, top, floor, tie = (members(room, letter)[0] for letter in "UTFW")
    assert (upright.along, upright.x, upright.y, upright.z, upright.section) == ("z", 0, 204, 21, (41, 21))
    assert (top.along, top.x, top.y, top.z, top.section) == ("x", 3, 184, 1175, (21, 41))
    assert (floor.along, floor.x, floor.y, floor.z, floor.section) == ("x", 3, 184, 0, (21, 41))
    assert (tie.along, tie.x, tie.y, tie.z, tie.section) == ("y", 0, 21, 1154, (41, 21))
    assert [each.x for each in members(room, "F")] == [3, 1250]


@pytest.mark.parametrize("leans", [20, -20])
def test_ties_reach_to_the_wall_as_it_leans(work: Work, leans: float) -> None:
    """The middle of a tie at 1,154 is at 1,164.5; the wall leans over 20 + 1,200."""
    for tie in members(work(survey__wall__out_of_plumb=leans), "W"):
        assert tie.length.value == pytest.approx(183 - leans * 1164.5 / 1220, abs=1e-3)
        assert (tie.y, tie.y + tie.length.value) == pytest.approx((21 + leans * 1164.5 / 1220, 204), abs=1e-3)


def test_the_lower_of_two_ties_is_shortened_less(work: Work) -> None:
    room = work(design__prewall__height="full", survey__wall__out_of_plumb=24)  # 2,400 high; ties at 1,153 and 2,348
    assert lengths(room, "W")[:2] == pytest.approx([183 - 24 * 1163.5 / 2400, 183 - 24 * 2358.5 / 2400])


def test_a_wall_that_leans_in_to_the_uprights_wants_no_ties(work: Work) -> None:
    assert not members(work(design__prewall__depth=60, survey__wall__out_of_plumb=20), "W")  # 18 of tie, 19 of lean


def test_rails_at_a_free_end_run_through(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000), design__prewall__from_left=200, design__prewall__run=1600)
    assert lengths(room, "F") == [550, 550]  # 750 − 200; 1,800 − 1,250
    assert lengths(room, "T") == [1594]


def test_tall_uprights_are_tied_twice(work: Work) -> None:
    room = work(design__prewall__height="full")  # 2,390 high: two spaces of 1,300
    assert len(members(room, "W")) == 2 * len(members(room, "U"))
    assert [each.z for each in members(room, "W")[:2]] == [1153, 2348]


def test_a_top_rail_longer_than_any_bar_is_joined_at_an_upright(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 2000), survey__room__width=4000)  # bars of 3,000; half way is inside the frame: its leg at 1,770 is nearest
    assert lengths(room, "T") == [1767, 2227]  # 1,770 − 3; 3,997 − 1,770
    assert sum(lengths(room, "T")) == 3994
    joint = members(room, "T")[1].x
    assert joint in [each.value for each in room.supports]
    assert [each.where for each in members(room, "T")] == ["from 3 from left wall, joined on its right", "from 1,770 from left wall"]


def test_a_long_floor_rail_is_joined_too(work: Work) -> None:
    room = work(survey__room__width=7000)
    assert len(lengths(room, "F")) == 3
    assert sum(lengths(room, "F")) == pytest.approx(6994)
    assert max(lengths(room, "F")) <= 3000


def test_another_strut_is_another_depth(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000), design__prewall__strut="strut-41x41")
    assert set(lengths(room, "U")) == {1114}  # 1,196 − 41 − 41


def test_no_bar_length_known_no_joint(work: Work) -> None:
    room = work(survey__room__width=20_000, design__prewall__strut="strut-41x41")
    assert lengths(room, "T") == [19_994]


def test_a_pre_wall_too_shallow_for_ties_has_none(work: Work) -> None:
    assert not members(work(design__prewall__depth=40), "W")


def test_a_covering_thicker_than_the_pre_wall_is_high_leaves_nothing_standing(book: Book, plain: RoomPlan) -> None:
    tile = book.item("tile-600x300-white")
    thick = replace(tile, sizes={**tile.sizes, "thickness": (1200.0, "mm")})
    room = work_out(plain, replace(book, items={**book.items, thick.code: thick}))
    assert room.top_of_steel.value < 42
    assert not [each for each in room.members if each.mark[0] in "UW"]
