"""What a fitter expects on the list for each kind of appliance, written down before any list was looked at: all of it is there."""

from __future__ import annotations

from typing import Any

import pytest

from tests.published.asking import room_of
from tundish.takeoff.run import run_room

TO_THE_STACK = ("boss-strap", "waste-bend", "waste-clip", "lined", "test-plug-40")
SUPPLIED = ("copper-15", "elbow-15", "coupling-15", "clip-15-rubber", "insulation-15", "ptfe-tape")
HUNG = ("tie-rod", "anchor-brick", "sound-pad", "sound-strip", "screw-floor", "sealant", "collar-pipe", "tanking-tape")
TAPPED = ("tap-", "basin-waste", "wall-plate-15", "flexible", "plug-half", "valve-")
VARIANTS: dict[str, tuple[dict[str, Any], tuple[str, ...]]] = {
    "bidet": (
        {"kind": "bidet", "centre": 1600, "top": 420, "ware": "bidet-ondel-530", "frame": "frame-bidet-1120", "tap": "tap-bidet"},
        (
            "bidet-ondel-530",
            "frame-bidet",
            "fixing-set-m12",
            "trap-bottle-32",
            "boss-reducer-40-32",
            "waste-pipe-32",
            *TAPPED,
            *TO_THE_STACK,
            *SUPPLIED,
            *HUNG,
        ),
    ),
    "urinal": (
        {
            "kind": "urinal",
            "centre": 1600,
            "top": 610,
            "ware": "urinal-brodwel-330",
            "frame": "frame-urinal-1310",
            "plate": "plate-urinal-push",
        },
        (
            "urinal-brodwel",
            "frame-urinal",
            "plate-urinal",
            "urinal-waste",
            "trap-urinal-40",
            "waste-reducer-50-40",
            "waste-pipe-50",
            "boss-strap-110x50",
            "tap-connector",
            "valve-service-15",
            "fixing-set-m10",
            *TO_THE_STACK,
            *SUPPLIED,
            *HUNG,
        ),
    ),
    "accessible wc": (
        {
            "kind": "accessible wc",
            "centre": 700,
            "top": 455,
            "ware": "pan-tisbel-750",
            "frame": "frame-wc-1120",
            "seat": "seat-tisbel-ring",
            "plate": "plate-large-key",
            "rail": "rail-hamlow-600",
            "drop_rail": "rail-hamlow-drop-765",
            "back_rest": "back-rest-hamlow",
        },
        (
            "pan-tisbel",
            "frame-wc",
            "seat-tisbel",
            "plate-large",
            "rail-hamlow-600",
            "rail-hamlow-drop",
            "back-rest",
            "fixing-set-rail",
            "fixing-set-m12",
            "soil-pipe-110",
            "soil-branch-110",
            "soil-slip-110",
            "soil-clip-110",
            "soil-coupling",
            "soil-adaptor",
            "pan-bend",
            "pan-outlet-90",
            "flush-pipe",
            "test-plug-110",
            "tap-connector",
            "valve-service-15",
            "collar-pipe-110",
            "collar-pipe-50",
            *SUPPLIED,
            *HUNG,
        ),
    ),
    "basin behind a half pedestal": (
        {
            "kind": "basin",
            "centre": 1600,
            "top": 850,
            "ware": "basin-fethan-500",
            "frame": "frame-basin-1120",
            "tap": "tap-mixer-lever",
            "trap": "half pedestal",
            "valves": "in front of the wall",
        },
        (
            "basin-fethan",
            "half-pedestal",
            "trap-hidden-32",
            "frame-basin",
            "fixing-set-m10",
            "valve-service-half",
            *TAPPED,
            *TO_THE_STACK,
            *SUPPLIED,
            *HUNG,
        ),
    ),
    "shower valve": (
        {"kind": "shower valve", "centre": 1200, "top": 1100, "ware": "shower-valve-orlen", "frame": "bar-300", "head": 2100},
        ("shower-valve", "bar-300", "male-adaptor-15", "wall-plate-15", "plug-half", "valve-service-15", "collar-pipe", *SUPPLIED),
    ),
    "wall spout": (
        {"kind": "wall spout", "centre": 1200, "top": 800, "ware": "wall-spout-orlen-180", "frame": "bar-300"},
        ("wall-spout", "bar-300", "male-adaptor-15", "valve-service-15", "collar-pipe", *SUPPLIED),
    ),
}


@pytest.mark.parametrize("name", VARIANTS)
def test_nothing_that_a_fitter_expects_is_missing(name: str) -> None:
    appliance, expected = VARIANTS[name]
    room, book = room_of({"design.appliances": [{"name": "It", **appliance}]})
    take = run_room(room, book)
    assert not take.problems
    codes = [line.item.code for line in take.lines]
    assert [each for each in expected if not any(each in code for code in codes)] == []
    assert not [one for one in take.findings if one.group == "Joints" and one.state != "passes"]
