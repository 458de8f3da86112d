"""Where a maker's sheet does not give a size, nothing is guessed."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from tests.rules.test_cases import given
from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.rules.frames.spreader_plates import spreader_plates
from tundish.rules.loads.feet import feet
from tundish.rules.loads.overturning import overturning
from tundish.rules.loads.wall_pull import wall_pull
from tundish.rules.rule import Caution, Finding
from tundish.rules.safety.weights import weights
from tundish.rules.water.air_gap import air_gap
from tundish.rules.water.flush import flush


def without(name: str, code: str, room: str = "plain") -> tuple[Room, Book]:
    """A room worked out with a book in which an item lacks a size."""
    worked, book = given({"room": room})
    changed = replace(book, items={**book.items, code: lacking(book.items[code], name)})
    return work_out(worked.plan, changed, worked.path), changed


def test_a_fixing_without_a_pull_is_not_judged() -> None:
    found = [one for one in wall_pull.says(*without("pull_kn", "anchor-brick")) if isinstance(one, Finding)]
    assert [one.state for one in found] == ["cannot tell", "cannot tell"]
    assert all("enter it in the catalogue" in one.message for one in found)


def test_a_floor_fixing_without_a_pull_is_not_judged() -> None:
    standing, book = given({"room": "plain", "set": {"design.prewall.built_of": "self-standing"}})
    code = book.role("floor screw timber heavy").code
    bare = lacking(lacking(book.items[code], "pull_kn"), "thread_length")
    changed = replace(book, items={**book.items, code: bare})
    found = [one for one in overturning.says(standing, changed) if isinstance(one, Finding)]
    assert [one.state for one in found] == ["cannot tell", "cannot tell"]
    assert all("enter it in the catalogue" in one.message for one in found)


def test_a_urinal_frame_without_a_flush_is_not_judged() -> None:
    found = [one for one in flush.says(*without("flush", "frame-urinal-1310", "row")) if isinstance(one, Finding)]
    assert {one.place for one in found} == {"WC 1"}


def test_a_frame_without_an_air_gap_is_not_judged() -> None:
    found = [one for one in air_gap.says(*without("air_gap", "frame-wc-1120")) if isinstance(one, Finding)]
    assert [one.state for one in found] == ["cannot tell"]
    assert "enter it in the catalogue" in found[0].message


@pytest.mark.parametrize("name", ["weight", "length", "width"])
def test_a_sheet_that_cannot_be_weighed_is_not_warned_of(name: str) -> None:
    large, book = given({"room": "plain", "set": {"design.finish.board": "board-cement-12-large"}})
    assert [one.words for one in weights.says(large, book) if isinstance(one, Caution)] == [
        "Cement board 12, large 44.6 kg. Lift it with two, or on a trolley: 25.0 kg is the HSE's guideline at best."
    ]
    bare = replace(large, board=lacking(large.board, name))
    assert not list(weights.says(bare, book))


def lacking(item: Item, name: str) -> Item:
    """The item without one of its sizes."""
    return replace(item, sizes=MappingProxyType({each: size for each, size in item.sizes.items() if each != name}))


def test_feet_of_a_size_that_no_sheet_gives_are_not_judged_and_get_no_plate() -> None:
    worked = without("sole", "frame-wc-1120")
    states = {one.place: one.state for one in feet.says(*worked) if isinstance(one, Finding)}
    assert states == {"WC 1": "cannot tell", "Basin 1": "passes"}
    assert not list(spreader_plates.says(*worked))
