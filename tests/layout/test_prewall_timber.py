"""The members of a pre-wall of studwork 38 × 63, worked by hand: top of studwork 1,196, 225 deep, one frame in 2,000."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tundish.layout.design import Appliance
from tundish.layout.room import Member, Room

Hang = Callable[..., Appliance]


@pytest.fixture
def room(work: Callable[..., Room], hang: Hang) -> Room:
    return work(hang("wc", 1000), design__prewall__built_of="timber")


def members(room: Room, letter: str) -> list[Member]:
    return [each for each in room.members if each.mark.startswith(letter)]


def lengths(room: Room, letter: str) -> list[float]:
    return [each.length.value for each in members(room, letter)]


def test_lengths(room: Room) -> None:
    assert lengths(room, "U") == [1120] * 6  # 1,196 − 38 − 38
    assert lengths(room, "T") == [1994]
    assert lengths(room, "F") == [747, 747]
    assert lengths(room, "N") == [318] * 4  # studs 356 apart, less 38; none across the frame
    assert lengths(room, "W") == [162] * 6  # 225 − 63, one to each stud
    assert {each.role for each in room.members} == {"timber stud"}


def test_words(room: Room) -> None:
    assert {each.what for each in room.members} == {"stud", "head plate", "sole plate", "noggin", "wall tie"}


def test_places(room: Room) -> None:
    stud, head, noggin, tie = (members(room, letter)[0] for letter in "UTNW")
    assert (stud.x, stud.y, stud.z, stud.section) == (0, 162, 38, (38, 63))
    assert (head.x, head.z) == (3, 1158)
    assert (noggin.along, noggin.x, noggin.z) == ("x", 38, 579)
    assert (tie.along, tie.y, tie.z) == ("y", 0, 1095)


def test_wall_struts_stay_of_strut(work: Callable[..., Room], hang: Hang) -> None:
    room = work(hang("wc", 1000), design__prewall__built_of="timber", survey__wall__construction="timber stud")
    assert [each.role for each in members(room, "S")] == ["strut"]


def test_no_noggin_where_studs_touch(work: Callable[..., Room], hang: Hang) -> None:
    room = work(hang("wc", 450), hang("basin", 1026), design__prewall__built_of="timber")  # 76 between the frames: two studs, side by side
    assert not [each for each in members(room, "N") if 700 <= each.x <= 800]


def test_a_pre_wall_no_deeper_than_its_studs_has_no_ties(work: Callable[..., Room]) -> None:
    assert not members(work(design__prewall__built_of="timber", design__prewall__depth=63), "W")
