"""The storey rod has every height that is marked on the wall, those of rails and back rest among them; the wall drawing names them."""

from __future__ import annotations

import pytest

from tests.published.asking import room_of
from tundish.documents.drawing import Box, Words
from tundish.documents.rod import marks_of, rod
from tundish.documents.setting_out import left_of
from tundish.documents.wall_drawing import CLIENT_VIEW, elevation
from tundish.documents.wall_sheet import wall_sheet
from tundish.layout.room import Room

RAILS = {"rail": "rail-hamlow-600", "drop_rail": "rail-hamlow-drop-765", "back_rest": "back-rest-hamlow"}
NAMES = {"Drop-down rail", "Back rest"}


def accessible(**changes: object) -> Room:
    plain = {"kind": "accessible wc", "name": "WC 1", "centre": 500, "ware": "pan-tisbel-750", "frame": "frame-wc-1120"}
    return room_of({"design.appliances.0": plain | {"seat": "seat-tisbel-ring"} | RAILS | changes})[0]


def names(room: Room) -> dict[str, Words]:
    return {mark.text: mark for mark in elevation(room).marks if isinstance(mark, Words) and mark.text in NAMES}


def test_rails_and_back_rest_are_on_the_rod_at_their_figures() -> None:
    room = accessible()
    shown = {mark.label: mark for mark in rod(room) if mark.piece == "wc-1"}
    for label, name in (("Drop-down rail", "drop_rail"), ("Back rest", "back_rest"), ("Rail beside", "rail")):
        assert shown[label].height.value == room.figures[f"wc-1.{name}"].value
        assert shown[label].key == f"wc-1.{name}"
    assert {"Top of pan", "Outlet", "Flush plate"} <= set(shown), "what every WC has"


def test_only_what_was_chosen_is_on_the_rod() -> None:
    labels = {mark.label for placed in accessible(drop_rail="", back_rest="", rail="").placed for mark in marks_of(placed)}
    assert not labels & {"Drop-down rail", "Back rest", "Rail beside"}


def test_the_wall_drawing_names_rail_and_back_rest_at_their_heights() -> None:
    room = accessible()
    for text, name in (("Drop-down rail", "drop_rail"), ("Back rest", "back_rest")):
        mark = names(room)[text]
        assert mark.y == room.figures[f"wc-1.{name}"].value
        assert mark.piece == "wc-1"
    assert not names(accessible(drop_rail="", back_rest=""))
    assert not {mark.text for mark in elevation(room, CLIENT_VIEW).marks if isinstance(mark, Words)} & NAMES


@pytest.mark.parametrize("beside", ["left", "right"])
def test_the_name_of_the_rail_stands_on_its_open_side(beside: str) -> None:
    room = accessible(beside=beside, centre=900)
    mark, at = names(room)["Drop-down rail"], room.figures["wc-1.drop_rail_from_left"].value
    assert (mark.x > at, mark.anchor) == ((True, "start") if beside == "left" else (False, "end"))


def test_the_sheet_shows_them_from_above_as_far_out_as_they_are_made() -> None:
    room = accessible()
    outs = {name: room.figures[f"wc-1.{name}_out"].value for name in ("drop_rail", "back_rest")}
    deep = {mark.height for mark in wall_sheet(room).marks if isinstance(mark, Box) and mark.piece == "wc-1"}
    assert set(outs.values()) <= deep


def test_the_drop_down_rail_is_set_out_on_its_own_centre_and_the_other_on_the_side_wall() -> None:
    """320 from the pan's centre at 500, on its open side, the side wall being on the left."""
    placed = next(iter(accessible().placed))
    where = {mark.label: left_of(placed, mark) for mark in marks_of(placed)}
    assert (where["Drop-down rail"], where["Rail beside"], where["Back rest"]) == ("820", "side wall", "500")
