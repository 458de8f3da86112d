"""Sound pads are reckoned with: a foot stands on one, a tie rod goes through one to its nut."""

from __future__ import annotations

import pytest

from tests.published.asking import room_of
from tundish.field import Entry
from tundish.figure import Figure
from tundish.layout.room import Room


def of_wc(room: Room, name: str) -> Figure:
    figure: Figure = room.placed[0].figures[name]
    return figure


@pytest.mark.parametrize(("name", "where", "value"), [("feet", "under the foot", 20), ("reach", "at the bracket", 173)])
def test_the_receipt_of_foot_and_rod_names_the_pad_and_its_sheet(name: str, where: str, value: float) -> None:
    """28 + 1,000 - 1,000 - 8; 225 - 60 + 8."""
    figure = of_wc(room_of({})[0], name)
    (pad,) = [term.figure for term in figure.terms if term.figure.label == f"Sound pad {where}"]
    assert (figure.value, pad.value, pad.note) == (value, 8, "demonstration sheet F25")


def test_what_is_open_stays_open_through_the_pad() -> None:
    """22 to 34 of build-up: out 14 to 26; between 220 and 230 the rod reaches 168 to 178."""
    room = room_of({
        "survey.floor.build_up.0.thickness": Entry(18, low=12, high=24),
        "design.prewall.depth": Entry(225, low=220, high=230),
    })[0]  # fmt: skip
    feet, reach = of_wc(room, "feet"), of_wc(room, "reach")
    assert [(one.low, one.value, one.high) for one in (feet, reach)] == [(14, 20, 26), (168, 173, 178)]


def test_a_self_standing_pre_wall_has_no_rod_to_lengthen_and_still_stands_on_its_pads() -> None:
    room = room_of({"design.prewall.built_of": "self-standing"})[0]
    assert (of_wc(room, "feet").value, of_wc(room, "reach").value) == (20, 165)


def test_set_without_pads_neither_counts_one() -> None:
    room = room_of({"design.appliances.0.pads": "without sound pads"})[0]
    assert (of_wc(room, "feet").value, of_wc(room, "reach").value) == (28, 165)


@pytest.mark.parametrize(
    ("floor", "feet", "reach"),
    [
        ({"value": 3}, (3, 3, 3), (165, 165, 165)),
        ({"value": 9}, (1, 1, 1), (173, 173, 173)),
        ({"value": 10, "low": 5, "high": 12}, (0, 2, 12), (165, 173, 173)),
        ({"value": 6, "low": 5, "high": 12}, (0, 6, 12), (165, 165, 173)),
    ],
)
def test_by_rule_there_is_a_pad_where_it_has_room(floor: dict[str, float], feet: tuple[float, ...], reach: tuple[float, ...]) -> None:
    """225 - 60 to the bracket, and 8 through a pad; feet out as high as the floor is built up, less 8 on a pad, never less than nothing."""
    room = room_of({"survey.floor.build_up": [{"what": "Tile", "thickness": floor}]})[0]
    found = [of_wc(room, name) for name in ("feet", "reach")]
    assert [(each.low, each.value, each.high) for each in found] == [feet, reach]
