"""Branch and wastes to a stack at 150 whose branch invert is 160, worked by hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from tests.published.asking import room_of
from tundish.field import Entry
from tundish.figure import Figure, between, number
from tundish.layout.design import Appliance
from tundish.layout.pipes import along
from tundish.layout.room import PipeRun, Room

Work = Callable[..., Room]
Hang = Callable[..., Appliance]


def pipe(room: Room, kind: str) -> PipeRun:
    (found,) = room.pipes_of(kind)
    return found


def test_the_branch_of_a_wc(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000, 420))
    figures = room.figures
    assert figures["wc-1.run"].value == 850  # 1,000 − 150
    assert figures["wc-1.fall"].value == 28  # 240 − 52 − 160
    assert figures["wc-1.fall_rate"].value == pytest.approx(32.941, abs=0.001)  # 28 ÷ 0.85
    assert figures["wc-1.fall_rate"].unit == "mm/m"
    assert figures["P1"].value == 660  # 850 − 190
    found = pipe(room, "soil")
    assert (found.key, found.mark, found.serves, found.size) == ("wc-1.soil", "P1", "wc-1", 110)
    assert list(found.points) == [(1000, 240), (150, 212)]  # the axis, half a bore above the invert
    assert found.enters is not None
    assert found.enters.value == 160


def test_while_the_invert_is_blank_the_fall_is_not_known(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 1000, 420), survey__stack__branch_invert=None)
    found = pipe(room, "soil")
    assert (found.rise, found.fall, found.enters) == (None, None, None)
    assert list(found.points) == [(1000, 240), (150, 240)]
    assert "wc-1.fall" not in room.figures
    assert "branch_invert" not in room.figures
    assert room.figures["wc-1.run"].value == 850


def test_a_pan_beside_the_stack_is_all_fittings(work: Work, hang: Hang) -> None:
    room = work(hang("wc", 300), hang("basin", 1000))
    assert room.figures["wc-1.run"].value == 150  # never reckoned shorter
    assert [(each.key, each.mark, each.pieces) for each in room.pipes_of("soil")] == [("wc-1.soil", "", ())]
    assert pipe(room, "waste").mark == "P1"


def test_the_waste_of_a_basin(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 550, 850))
    assert room.figures["basin-1.run"].value == 400  # 550 − 150
    assert room.figures["basin-1.fall"].value == 8  # 20 a metre
    assert room.figures["basin-1.fall_rate"].value == 20
    assert room.figures["basin-1.boss"].value == 527  # 550 − 15 − 8
    assert room.figures["P1"].value == 520  # 400 + 120
    found = pipe(room, "waste")
    assert (found.size, found.enters, found.points) == (32, room.figures["basin-1.boss"], ((550, 550), (150, 542)))


def test_a_waste_let_in_at_a_height_of_its_own_falls_to_that(work: Work, hang: Hang) -> None:
    """550 − 15 of half its bore − 515 = 20 over 400: 50 a metre, as a short 32 may; at 400 it falls at 20 and drops the rest."""
    room = work(replace(hang("basin", 550, 850), waste_at=Entry(515)))
    figures = room.figures
    assert (figures["basin-1.boss"].value, figures["basin-1.fall"].value, figures["basin-1.fall_rate"].value) == (515, 20, 50)
    found = pipe(room, "waste")
    assert (found.points, found.drop) == (((550, 550), (150, 530)), None)
    lower = pipe(work(replace(hang("basin", 550, 850), waste_at=Entry(400))), "waste")
    assert lower.drop is not None
    assert (lower.drop.value, lower.drop.label) == (127, "Drop to the stack, Basin 1")  # 550 − 15 − 400 − 8
    assert list(lower.points)[-1:] == [(150, 415)]  # its axis
    assert lower.bends[-2:] == ("at the top of the drop", "at the foot of the drop")


def test_where_a_waste_is_still_to_be_let_in_leaves_its_fall_open(work: Work, hang: Hang) -> None:
    room = work(replace(hang("basin", 550, 850), waste_at=Entry(520, low=515, high=525)))
    fall = room.figures["basin-1.fall"]
    assert (fall.low, fall.value, fall.high) == (10, 15, 20)


def test_marks_go_on_from_appliance_to_appliance(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 500), hang("wc", 1100), hang("bidet", 1700))
    assert [(each.key, each.mark) for each in room.pipes_of("soil", "waste")] == [
        ("basin-1.waste", "P1"),
        ("wc-1.soil", "P2"),
        ("bidet-1.waste", "P3"),
    ]


@pytest.mark.parametrize(("kind", "centre", "size"), [("basin", 1850, 32), ("basin", 1851, 40), ("bidet", 1900, 40), ("urinal", 500, 50)])
def test_sizes_of_wastes(work: Work, hang: Hang, kind: str, centre: float, size: int) -> None:
    room = work(hang(kind, centre), survey__room__width=3000)  # 32 up to a run of 1.7 m
    assert pipe(room, "waste").size == size


def test_a_size_still_open_keeps_the_boss_open(work: Work, hang: Hang) -> None:
    room = work(hang("basin", 1840, 850), survey__room__width=3000, survey__stack__from_left=Entry(150, low=130, high=160))
    boss = room.figures["basin-1.boss"]
    # 32: 550 − 15 − 33.6 at 1,680 to 33.8 at 1,690; 40: 550 − 19 − 34.2 at 1,710.
    assert (boss.value, boss.low, boss.high) == pytest.approx((501.2, 496.8, 501.4))
    assert boss.tbc


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        (between(500, 490, 510), number(100), (400, 390, 410)),
        (number(100), between(500, 490, 510), (400, 390, 410)),
        (between(200, 190, 260), number(100), (150, 150, 160)),
        (between(110, 90, 300), number(100), (150, 150, 200)),
        (between(110, -300, 300), number(100), (150, 150, 400)),  # it may stand on either side
    ],
)
def test_how_far_two_places_are_apart(one: Figure, other: Figure, expected: tuple[float, float, float]) -> None:
    found = along(one, other, "Run", number(150))
    assert (found.value, found.low, found.high) == expected
    assert found.label == "Run"


def test_a_branch_goes_through_the_wall_to_a_stack_behind_it() -> None:
    inside, _ = room_of()
    outside, _ = room_of({"survey.stack.behind": True, "survey.stack.from_wall": 300})
    assert outside.figures["stack_from_wall"].value == -300
    assert pipe(inside, "soil").run.value == 550  # 700 − 150, along the wall at the stack's own 130
    assert pipe(outside, "soil").run.value == 915  # 550, against the wall at 65, and 65 + 300 through it
    assert pipe(outside, "soil").bends == ("behind WC 1", "over to where it enters")
    assert pipe(outside, "soil").route[-1][1] == -300


def test_a_branch_straight_back_goes_through_the_wall() -> None:
    changes = {"survey.stack.behind": True, "survey.stack.from_wall": 300, "survey.stack.from_left": 700}
    room, _ = room_of({**changes, "design.appliances.0.outlet": "straight back"})
    assert pipe(room, "soil").run.value == 525  # 225 in front of the wall's face, 300 behind it


DRAIN = {"name": "drain", "size": "110", "from_left": 1000, "from_wall": 80, "invert": -200, "under": True}


def test_a_branch_to_a_drain_under_the_floor_is_laid_to_a_fall_and_drops_at_its_end() -> None:
    """From 700 to 1,000 at 25 a metre falls 7.5; from the outlet, half a bore of 51.8 lower, to 200 below the floor drops the rest."""
    room, _ = room_of({"survey.entries": [DRAIN], "design.appliances.0.drains_to": "drain"})
    found, outlet = pipe(room, "soil"), room.figures["wc-1.outlet"].value
    assert found.run.value == 300
    assert found.rise is not None
    assert found.drop is not None
    assert found.rise.value == pytest.approx(7.5)
    drop = outlet - 51.8 - 7.5 + 200
    assert found.drop.value == pytest.approx(drop)
    assert [each.value for each in found.lengths] == pytest.approx([300 - 190, drop - 190])
    assert found.route[-1] == pytest.approx((1000, 80, -200 + 51.8))
    assert found.route[-2][2] - found.route[-1][2] == pytest.approx(drop)
    assert found.bends == ("behind WC 1", "at the top of the drop", "at the foot of the drop")


def test_what_is_not_under_the_floor_falls_all_the_way() -> None:
    room, _ = room_of({"survey.entries": [DRAIN | {"under": False}], "design.appliances.0.drains_to": "drain"})
    found = pipe(room, "soil")
    assert found.drop is None
    assert found.route[-1][2] == pytest.approx(-148.2)
    flat, _ = room_of({"survey.entries": [DRAIN | {"invert": 195}], "design.appliances.0.drains_to": "drain"})
    assert pipe(flat, "soil").drop is None, "no higher than it falls anyway"
