"""What has to be settled while the wall is open: it names real inputs, and says anew what it rests on when that changes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from tests.rules.test_cases import given
from tundish.catalogue.load import supplied_book
from tundish.estimate import estimate
from tundish.field import describe
from tundish.layout.design import RoomPlan
from tundish.rules.book import RULES
from tundish.rules.rule import Decision
from tundish.store.keep import demo_jobs


def decisions(room: str, changes: Mapping[str, Any] | None = None) -> dict[str, Decision]:
    worked, book = given({"room": room, "set": changes or {}})
    made = [one for each in RULES if each.family == "closing" for one in each.says(worked, book) if isinstance(one, Decision)]
    assert len({one.key for one in made}) == len(made), "two decisions of one key"
    return {one.key: one for one in made}


@pytest.mark.parametrize("room", ["plain", "row"])
def test_every_path_names_a_number_of_the_room(room: str) -> None:
    paths = [path for one in decisions(room).values() for path in one.paths]
    assert len(paths) > 5
    assert {describe(RoomPlan, path.removeprefix("rooms.0.")).kind for path in paths} == {"number"}


def test_each_says_what_it_is_settled_for() -> None:
    assert {key.removeprefix("bathroom/"): one.rests_on for key, one in decisions("plain").items()} == {
        "sizes/wc-1": "Ondel 530 pan",
        "sizes/basin-1": "Fethan 500 basin",
        "heights": "WC 1 420, Basin 1 850, pre-wall 1,200",
        "build-up": "build-up 28 mm",
        "flush-plate/wc-1": "Flush plate, two round keys, white, board and tile 24 mm",
        "fixings": "brick: Sleeve anchor M10 × 120 for brick; chipboard on joists: Floor screw 8 × 80, hexagon head",
        "fall": "WC 1 71 in 550, Basin 1 29 in 1,450",
        "pressure-test": "hot to Basin 1; cold to WC 1, Basin 1, at 3 bar",
        "soil-test": "WC 1, Basin 1",
        "trial-fit": "Ondel 530 pan at 700, Fethan 500 basin at 1,600",
        "reach": "valves: hot to Basin 1, cold to WC 1, cold to Basin 1",
    }


@pytest.mark.parametrize(
    ("path", "value", "opened"),
    [
        ("survey.floor.build_up.0.thickness", 21, {"build-up", "fall"}),
        ("design.appliances.0.top", 430, {"heights", "fall"}),
        ("design.appliances.1.centre", 1610, {"fall", "trial-fit"}),
        ("design.finish.tile", "tile-600x600-slate", {"flush-plate/wc-1"}),
        ("survey.wall.construction", "block", {"fixings"}),
        ("design.appliances.0.ware", "pan-ondel-480", {"sizes/wc-1", "trial-fit"}),
    ],
)
def test_a_change_opens_what_rests_on_it_and_nothing_else(path: str, value: object, opened: set[str]) -> None:
    before, after = decisions("plain"), decisions("plain", {path: value})
    assert {key.removeprefix("bathroom/") for key, one in after.items() if one.rests_on != before[key].rests_on} == opened


def test_the_fall_is_asked_for_before_the_invert_is_known() -> None:
    fall = decisions("plain", {"survey.stack": {"from_left": 150}})["bathroom/fall"]
    assert fall.why == "Needs branch invert first."
    assert fall.rests_on.startswith("WC 1 invert not known")


def test_a_room_without_a_name_is_told_apart_by_its_place() -> None:
    assert "rooms.0/heights" in decisions("plain", {"name": "…"})


def test_the_floor_of_a_room_with_several_pre_walls_is_asked_about_once() -> None:
    job = next(job for job in demo_jobs() if job.number == "104")
    assert [each.title for each in estimate(job, supplied_book()).decisions].count("Floor build-up confirmed") == len(job.rooms)
