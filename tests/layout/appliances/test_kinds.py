"""Each kind of appliance, worked by hand with 20 of build-up on the floor and 24 of boards and tiles on the steel."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tundish.field import Entry
from tundish.figure import Figure, where_from, worked_again
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import KINDS as CHOICES
from tundish.layout.design import Appliance
from tundish.layout.room import Room

Work = Callable[..., Room]
Hang = Callable[..., Appliance]

# 20 + 1,000 − 990; 20 + 1,090; brackets 440 apart
SHARED = {"centre": 1000, "feet": 30, "bracket": 1110, "bracket_left": 780, "bracket_right": 1220}
EXPECTED = {
    "wc": SHARED
    | {
        "top": 440,  # 20 + 420
        "studs": 340,  # 440 − 100
        "slider": 680,  # 1,000 − (340 − 20): the frame's mark stands at 1,000
        "studs_apart": 180,
        "outlet": 240,  # 340 − 100
        "inlet": 375,  # 340 + 35
        "seat": 460,  # 440 + 20
        "plate": 1020,  # 20 + 1,000
        "supply": 1030,  # 20 + 1,010
        "frame_top": 1140,  # 20 + 1,120
        "stud_projection": 59,  # 24 + 20 + 15
        "outlet_cut": 114,  # 24 + 45 + 45
        "inlet_cut": 129,  # 24 + 55 + 50
        "reach": 165,  # 225 − 60
        "thread_left": 35,  # the middle rod reaches 200
    },
    "basin": SHARED
    | {
        "top": 870,  # 20 + 850
        "studs": 815,  # 870 − 55
        "slider": 205,  # 1,000 − (815 − 20): the frame's mark stands at 1,000
        "studs_apart": 280,
        "waste": 550,  # 870 − 320
        "supply": 580,  # 870 − 290
        "hot_from_left": 925,  # 1,000 − 75
        "cold_from_left": 1075,
        "frame_top": 1140,
        "stud_projection": 59,
        "reach": 175,  # 225 − 50
        "thread_left": 25,
    },
    "bidet": SHARED
    | {
        "top": 440,
        "studs": 340,
        "slider": 680,  # 1,000 − (340 − 20): the frame's mark stands at 1,000
        "studs_apart": 180,
        "waste": 215,  # 440 − 225
        "supply": 215,
        "hot_from_left": 940,
        "cold_from_left": 1060,
        "frame_top": 1140,
        "stud_projection": 59,
        "reach": 165,
        "thread_left": 35,
    },
    "urinal": SHARED
    | {
        "top": 630,  # 20 + 610
        "studs": 950,  # 630 + 320: above the lip
        "slider": 70,  # 1,000 − (950 − 20): the frame's mark stands at 1,000
        "studs_apart": 180,
        "waste": 510,  # 630 − 120
        "supply": 1130,  # 630 + 500
        "plate": 1250,  # 20 + 1,230
        "frame_top": 1330,
        "stud_projection": 59,
        "reach": 165,
        "thread_left": 35,
    },
    "shower valve": {
        "centre": 1000,
        "top": 1120,  # 20 + 1,100
        "supply": 1120,
        "hot_from_left": 925,  # 1,000 − 75
        "cold_from_left": 1075,
        "head": 2120,  # 20 + 2,100
        "riser": 1000,  # 2,120 − 1,120
    },
    "wall spout": {"centre": 1000, "top": 1020, "supply": 1020, "hot_from_left": 925, "cold_from_left": 1075},
}
EXPECTED["accessible wc"] = EXPECTED["wc"] | {
    "rail": 700,  # 20 + 680
    "drop_rail": 700,
    "drop_rail_from_left": 1320,  # 1,000 + 320: the wall beside it is on its left
    "drop_rail_wide": 110,
    "drop_rail_out": 765,
    "back_rest": 710,  # 20 + 690
    "back_rest_wide": 640,
    "back_rest_out": 160,
}
MORE: dict[str, dict[str, Any]] = {
    "wc": {"seat": "seat", "plate": "plate"},
    "accessible wc": {"seat": "seat", "plate": "plate", "rail": "rail", "drop_rail": "rail-drop", "back_rest": "rest"},
    "shower valve": {"head": Entry(2_100)},
}
TOPS = {"wc": 420, "basin": 850, "bidet": 420, "urinal": 610, "accessible wc": 420, "shower valve": 1100, "wall spout": 1000}


def one(work: Work, hang: Hang, kind: str, **more: Any) -> dict[str, Figure]:
    room = work(hang(kind, 1000, TOPS[kind], **more))
    assert not room.problems
    return dict(room.placed[0].figures)


@pytest.mark.parametrize("kind", EXPECTED)
def test_every_figure_of_a_kind(work: Work, hang: Hang, kind: str) -> None:
    figures = one(work, hang, kind, **MORE.get(kind, {}))
    assert {name: figure.value for name, figure in figures.items()} == EXPECTED[kind]
    assert all(figure.settled for figure in figures.values())
    assert all(worked_again(figure) == figure.value for figure in figures.values())
    assert len({figure.label for figure in figures.values()}) == len(figures)


def test_every_kind_that_can_be_chosen_is_known() -> None:
    assert tuple(KINDS) == CHOICES


def test_the_studs_read_like_a_receipt(work: Work, hang: Hang) -> None:
    studs = one(work, hang, "wc")["studs"]
    assert studs.label == "Fixing studs, WC 1"
    assert [(line.sign, line.figure.label, line.figure.value) for line in where_from(studs).children] == [
        ("+", "Floor build-up", 20),
        ("+", "Top of pan, finished floor", 420),
        ("−", "Top of pan down to studs", 100),
    ]


def test_studs_above_the_lip_are_added(work: Work, hang: Hang) -> None:
    assert [(line.sign, line.figure.label) for line in where_from(one(work, hang, "urinal")["studs"]).children][-1] == (
        "+",
        "Lip of urinal up to studs",
    )


def test_without_a_seat_there_is_no_height_of_one(work: Work, hang: Hang) -> None:
    assert "seat" not in one(work, hang, "wc")


def test_the_usual_height_of_an_accessible_wc_is_that_of_its_seat(work: Work, hang: Hang) -> None:
    figures = work(hang("accessible wc", 1000, seat="seat")).placed[0].figures
    assert (figures["seat"].value, figures["top"].value) == (500, 480)  # 20 + 480, less the seat of 20


def test_the_drop_down_rail_is_on_the_open_side(work: Work, hang: Hang) -> None:
    figures = one(work, hang, "accessible wc", drop_rail="rail-drop", beside="right")
    assert figures["drop_rail_from_left"].value == 680
    assert "rail" not in figures


@pytest.mark.parametrize(
    ("trap", "waste", "supply"),
    [
        ("behind the basin", 550, 580),  # its sheet: 870 − 320, 870 − 290
        ("exposed bottle trap", 550, 620),  # 870 − 320, 870 − 250
        ("half pedestal", 540, 590),  # 870 − 330, 870 − 280
        ("hidden in the wall", 670, 610),  # 870 − 200, 870 − 260
    ],
)
def test_the_trap_of_a_basin_sets_its_waste_and_supplies(work: Work, hang: Hang, trap: str, waste: float, supply: float) -> None:
    figures = one(work, hang, "basin", trap=trap)
    assert (figures["waste"].value, figures["supply"].value) == (waste, supply)


@pytest.mark.parametrize(("frame", "supply"), [("frame-wc-top", 1105), ("frame-wc", 1030)])
def test_a_cistern_is_fed_from_its_top_where_its_sheet_says_how_high(work: Work, hang: Hang, frame: str, supply: float) -> None:
    assert one(work, hang, "wc", frame=frame, fed_from="top")["supply"].value == supply
    assert one(work, hang, "wc", frame=frame, fed_from="back")["supply"].value == 1030


def test_a_plate_on_the_shelf_is_set_over_the_middle_of_the_frame_and_not_in_the_front(work: Work, hang: Hang) -> None:
    figures = one(work, hang, "wc", plate_on="shelf")
    assert "plate" not in figures
    assert figures["shelf_plate"].value == 1220
    assert figures["shelf_plate_out"].value == 225 - 80
    assert one(work, hang, "wc", frame="frame-wc-top", plate_on="shelf")["shelf_plate_out"].value == 225 - 70
    assert "shelf_plate" not in one(work, hang, "wc")


def test_what_is_in_the_wall_has_no_frame(work: Work, hang: Hang) -> None:
    room = work(hang("shower valve", 700, 1100), hang("wall spout", 1300, 1000))
    assert [each.framed for each in room.placed] == [False, False]
    assert room.framed == ()
    assert [run.key for run in room.pipes] == ["shower-valve-1.hot", "wall-spout-1.hot", "shower-valve-1.cold", "wall-spout-1.cold"]


def test_a_urinal_frame_without_a_place_for_it_has_no_plate(work: Work, hang: Hang) -> None:
    assert "plate" not in one(work, hang, "urinal", frame="frame-urinal-plain")


@pytest.mark.parametrize(("wall", "reach"), [("brick", 165), ("concrete", 165), ("timber stud", 144), ("lath and plaster", 144)])
def test_a_strut_on_the_wall_shortens_the_reach(work: Work, hang: Hang, wall: str, reach: float) -> None:
    room = work(hang("wc", 1000, 420), survey__wall__construction=wall)  # 225 − 60, less 21 where a strut lies between
    assert room.figures["wc-1.reach"].value == reach


@pytest.mark.parametrize(("kind", "usual"), (TOPS | {"accessible wc": 480}).items())
def test_a_height_nobody_gave_is_the_usual_one_to_be_confirmed(work: Work, hang: Hang, kind: str, usual: float) -> None:
    top = work(hang(kind, 1000)).placed[0].figures["top"]
    assert top.value == 20 + usual
    assert top.tbc
