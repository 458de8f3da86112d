"""Which appliances are hung, under which names, and what is told of those that cannot be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from tundish.catalogue.book import Book
from tundish.field import Entry
from tundish.figure import between
from tundish.layout.design import Appliance
from tundish.layout.room import Room
from tundish.layout.settings import tie_rod

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def test_left_to_right_whatever_the_order_they_were_chosen_in(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1500), hang("basin", 400))
    assert [(each.key, each.name, each.path) for each in room.placed] == [
        ("basin-1", "Basin 1", "rooms.0.design.appliances.1"),
        ("wc-1", "WC 1", "rooms.0.design.appliances.0"),
    ]
    assert [each.key for each in room.of_kind("wc")] == ["wc-1"]


def test_a_name_of_its_own_gives_the_key(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 400, name="Children’s WC"), hang("wc", 1500, name=" "))
    assert [(each.key, each.name) for each in room.placed] == [("children-s-wc", "Children’s WC"), ("wc-2", "WC 2")]


def test_a_name_without_a_letter_still_has_a_key(work: Work, hang: Hang) -> None:
    assert [each.key for each in work(hang("wc", 400, name="!")).placed] == ["wc-1"]


def test_two_of_one_name_are_told_and_kept_apart(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 300, name="WC"), hang("wc", 900, name="WC"), hang("wc", 1500, name="wc"))
    assert [each.key for each in room.placed] == ["wc", "wc-2", "wc-3"]
    assert [each.path for each in room.problems] == ["rooms.0.design.appliances.1.name", "rooms.0.design.appliances.2.name"]


@pytest.mark.parametrize(
    ("changes", "path", "words"),
    [
        ({"ware": ""}, "ware", "No wc pan is chosen: choose one"),
        ({"ware": "gone"}, "ware", "The catalogue does not hold 'gone': choose another wc pan"),
        ({"frame": "frame-basin"}, "frame", "frame basin is not a wc frame: choose one"),
        (
            {"frame": "frame-sheetless"},
            "frame",
            "The catalogue gives no plate at, cistern inlet at, outlet socket, inlet socket for frame sheetless: add them from the sheet",
        ),
        (
            {"kind": "sauna"},
            "kind",
            "'sauna' is not a kind of appliance: choose wc, basin, bidet, urinal, accessible wc, shower valve, wall spout",
        ),
        ({"centre": Entry(5000)}, "centre", "WC 1: its centre at 5,000 is not on the pre-wall, 0 to 2,000; it is left out"),
    ],
)
def test_one_that_cannot_be_hung_is_left_out_and_told(work: Work, hang: Hang, changes: dict[str, Any], path: str, words: str) -> None:
    room = work(replace(hang("wc", 1000), **changes), hang("basin", 500))
    assert [each.key for each in room.placed] == ["basin-1"]
    assert [(each.path, each.text) for each in room.problems] == [(f"rooms.0.design.appliances.0.{path}", words)]


def test_a_frame_wider_than_the_pre_wall_is_left_out(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 200), design__prewall__run=400)
    assert not room.placed
    assert [each.text for each in room.problems] == ["WC 1: its frame is 500 wide, the pre-wall 400; it is left out"]


@pytest.mark.parametrize("centre", [100, 1950])
def test_a_frame_past_the_end_is_kept_and_told(work: Work, hang: Hang, centre: float) -> None:
    room = work(hang("wc", centre))
    assert [each.key for each in room.placed] == ["wc-1"]
    assert [each.text for each in room.problems] == [
        "WC 1: its frame stands past the end of the pre-wall; set its centre from 250 to 1,750"
    ]


@pytest.mark.parametrize(("name", "code"), [("seat", "gone"), ("seat", "seat-sheetless"), ("plate", "tap")])
def test_a_seat_or_plate_that_there_is_not_is_taken_off_the_choice(work: Work, hang: Hang, name: str, code: str) -> None:
    room = work(hang("wc", 1000, **{name: code}))
    assert getattr(room.placed[0].choice, name) == ""
    assert "seat" not in room.placed[0].figures
    assert [each.path for each in room.problems] == [f"rooms.0.design.appliances.0.{name}"]


def test_a_tap_that_there_is_stays(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 1000, tap="tap"))
    assert room.placed[0].choice.tap == "tap"
    assert not room.problems


@pytest.mark.parametrize(
    ("low", "high", "code"),
    [
        (110, 120, "rod-short"),  # short and middle… only the short one reaches down to 110
        (140, 145, "rod-short"),  # both serve: the shorter
        (140, 160, "rod-middle"),  # the short one would not reach 160
        (160, 210, "rod-long"),
        (120, 250, "rod-short"),  # none serves the whole range: the shortest for what it is now, for a check to tell
        (400, 500, "rod-long"),
    ],
)
def test_the_tie_rod_serves_whatever_is_decided(book: Book, low: float, high: float, code: str) -> None:
    chosen = tie_rod([between(low, low, high)], book.of_kind("tie rod"))
    assert chosen is not None
    assert chosen.code == code


def test_a_tie_rod_of_the_frames_kit_is_taken_before_a_shorter_one(book: Book) -> None:
    chosen = [tie_rod([between(reach, reach, reach)], book.of_kind("tie rod"), {"rod-middle"}) for reach in (120, 142, 200)]
    assert [each.code for each in chosen if each is not None] == ["rod-short", "rod-middle", "rod-middle"]


def test_without_tie_rods_there_is_none(book: Book) -> None:
    assert tie_rod([between(1, 1, 1)], [replace(book.item("rod-long"), sizes={})]) is None
