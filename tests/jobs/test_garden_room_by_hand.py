"""One more room against an account made by hand: a WC and a basin in a garden room, with a floor that may still be 15 to 18.

Worked out from the trade's chains, the makers' sheets and the rule figures before the program was asked. Millimetres, heights from the
bare floor. Each line: the figure, what it is, what it may be at least and at most, and the working.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final

import pytest

from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry
from tundish.layout.design import Appliance, Design, Finish, PreWall, RoomPlan
from tundish.survey.floor import Floor, Layer
from tundish.survey.pipes import Stack, Water
from tundish.survey.survey import Shell, Survey
from tundish.survey.wall import Wall

ACCOUNT: Final = (
    ("finished_floor", 16, 15, 18, "5 mat and adhesive (4 to 7) + 11 tile"),
    ("datum", 1016, 1015, 1018, "16 + 1000"),
    ("finished_face", 239, 239, 239, "215 + 12 board + 3 bed + 9 tile"),
    ("top_of_prewall", 1176, 1175, 1178, "16 + 1160"),
    ("top_of_steel", 1152, 1151, 1154, "1176 - 9 - 3 - 12"),
    ("wc-1.top", 441, 440, 443, "16 + 425"),
    ("wc-1.studs", 346, 345, 348, "441 - 95"),
    ("wc-1.outlet", 246, 245, 248, "346 - 100"),
    ("wc-1.inlet", 381, 380, 383, "346 + 35"),
    ("wc-1.seat", 463, 462, 465, "441 + 22"),
    ("wc-1.plate", 1016, 1015, 1018, "16 + 1000"),
    ("wc-1.frame_top", 1136, 1135, 1138, "16 + 1120"),
    ("wc-1.feet", 8, 7, 10, "16 + 1000 - 1000, on a pad of 8"),
    ("wc-1.bracket", 1106, 1105, 1108, "16 + 1090"),
    ("wc-1.slider", 670, 670, 670, "1000 - (425 - 95)"),
    ("wc-1.reach", 163, 163, 163, "215 - 60, straight to the brick, through a pad of 8"),
    ("wc-1.stud_projection", 59, 59, 59, "24 + 20 ceramic + 15 washer and nut"),
    ("wc-1.outlet_cut", 114, 114, 114, "24 + 45 into the frame + 45 into the pan"),
    ("wc-1.inlet_cut", 129, 129, 129, "24 + 55 into the frame + 50 into the pan"),
    ("wc-1.run", 440, 440, 440, "700 - 260"),
    ("wc-1.fall", 29.2, 28.2, 31.2, "246 - 51.8 half the bore = 194.2; 194.2 - 165"),
    ("wc-1.fall_rate", 66.3636, 64.0909, 70.9091, "29.2 over 0.44"),
    ("basin-1.top", 861, 860, 863, "16 + 845"),
    ("basin-1.studs", 806, 805, 808, "861 - 55"),
    ("basin-1.waste", 541, 540, 543, "861 - 320"),
    ("basin-1.supply", 571, 570, 573, "861 - 290"),
    ("basin-1.hot_from_left", 1255, 1255, 1255, "1330 - 75"),
    ("basin-1.cold_from_left", 1405, 1405, 1405, "1330 + 75"),
    ("basin-1.frame_top", 1136, 1135, 1138, "16 + 1120"),
    ("basin-1.feet", 8, 7, 10, "16 + 1000 - 1000, on a pad of 8"),
    ("basin-1.bracket", 1106, 1105, 1108, "16 + 1090"),
    ("basin-1.slider", 210, 210, 210, "1000 - (845 - 55)"),
    ("basin-1.reach", 173, 173, 173, "215 - 50 + 8"),
    ("basin-1.stud_projection", 63, 63, 63, "24 + 24 ceramic + 15 washer and nut"),
    ("basin-1.fall", 21.4, 21.4, 21.4, "20 a metre over 1330 - 260 = 1070"),
    ("basin-1.boss", 504.4, 503.4, 506.4, "541 - 15.2 half the bore of 32 - 21.4"),
)
RODS: Final = {"wc-1": "tie-rod-medium", "basin-1": "tie-rod-medium"}
"""105 to 185 takes both 155 and 165."""


@lru_cache
def worked() -> Estimate:
    """The room, worked out."""
    survey = Survey(
        room=Shell(width=Entry(1700), depth=Entry(1600), height=Entry(2350)),
        wall=Wall(construction="brick", thickness=Entry(215)),
        floor=Floor(kind="screed", build_up=(Layer(thickness=Entry(5, low=4, high=7)), Layer(thickness=Entry(11)))),
        stack=Stack(from_left=Entry(260), from_wall=Entry(110), branch_invert=Entry(165)),
        water=Water(cold_from_left=Entry(800), hot_from_left=Entry(860)),
    )
    pan = Appliance(
        kind="wc", name="WC 1", centre=Entry(700), top=Entry(425), ware="pan-ondel-480", frame="frame-wc-1120",
        seat="seat-ondel-soft", plate="plate-square-steel", in_hand=True,
    )  # fmt: skip
    basin = Appliance(
        kind="basin", name="Basin 1", centre=Entry(1330), top=Entry(845), ware="basin-fethan-500", frame="frame-basin-1120",
        tap="tap-mixer-tall", in_hand=True,
    )  # fmt: skip
    design = Design(
        prewall=PreWall(depth=Entry(215), top=Entry(1160)),
        finish=Finish(board="board-cement-12", tile="tile-600x300-grey"),
        appliances=(pan, basin),
    )
    return estimate(Job(rooms=(RoomPlan(name="Garden room", survey=survey, design=design),)), supplied_book())


@pytest.mark.parametrize(("name", "value", "low", "high", "because"), ACCOUNT)
def test_it_is_as_worked_out_by_hand(name: str, value: float, low: float, high: float, because: str) -> None:
    figure = worked().rooms[0].figures[name]
    assert (figure.value, figure.low, figure.high) == pytest.approx((value, low, high), abs=0.001), because


def test_the_rods_are_as_chosen_by_hand() -> None:
    assert {each.key: each.tie_rod.code for each in worked().rooms[0].placed if each.tie_rod is not None} == RODS


def test_the_branch_falls_enough_whatever_is_decided() -> None:
    """By hand: 18 to 90 a metre over 0.44 are 7.92 to 39.6, and it falls 28.2 to 31.2."""
    (fall,) = [each for each in worked().findings if each.rule == "drainage/branch-fall"]
    assert fall.least is not None
    assert fall.most is not None
    assert (fall.least.value, fall.most.value) == pytest.approx((7.92, 39.6))
    assert fall.verdict_words == "passes whatever is decided"
