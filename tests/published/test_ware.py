"""Heights, connecting sizes and flushes of sanitaryware."""

from __future__ import annotations

import pytest

from tests.published.asking import Changes, found, room_of
from tundish.rules.frames.spacing import spacing
from tundish.rules.space.centre_to_wall import centre_to_wall
from tundish.rules.space.front import front
from tundish.rules.water.flush import flush


@pytest.mark.parametrize(("litres", "state"), [(4.5, "passes"), (6, "passes"), (6.1, "fails"), (7.5, "fails"), (9, "fails")])
def test_a_wc_flushes_six_litres_at_most(litres: float, state: str) -> None:
    """Water Supply (Water Fittings) Regulations 1999, schedule 2, paragraph 25(1)(d) (V1); EN 997 type 2 agrees (V2)."""
    assert found(flush, "Full flush", room_of(None, {"pan-ondel-530.flush": litres})).state == state


@pytest.mark.parametrize(("full", "lesser"), [(6, 4.0), (4.5, 3.0), (4, 2.67)])
def test_the_lesser_flush_is_two_thirds_at_most(full: float, lesser: float) -> None:
    """The same, 25(1)(e): two thirds of the largest (V1); the numbers are D."""
    within, over = (room_of(None, {"pan-ondel-530.flush": full, "pan-ondel-530.flush_small": lesser + by}) for by in (-0.01, 0.01))
    one = found(flush, "Small flush", within)
    assert one.state == "passes"
    assert one.most is not None
    assert one.most.value == pytest.approx(lesser, abs=0.005)
    assert found(flush, "Small flush", over).state == "fails"


@pytest.mark.parametrize(("litres", "state"), [(1.5, "passes"), (1.6, "fails")])
def test_a_urinal_valve_gives_one_and_a_half_litres_at_most(litres: float, state: str) -> None:
    """The same, 25(4): 1.5 l an operation (V1)."""
    worked = room_of(None, {"frame-urinal-1310.flush": litres}, "row")
    assert found(flush, "Full flush", worked, "Urinal 1").state == state


def test_a_pan_of_no_stated_height_hangs_at_420() -> None:
    """VDI 6000-1:2008, rim at 420, as quoted in the German trade press (V2)."""
    room, _ = room_of({"survey.floor.build_up": [], "design.appliances.0": wc()})
    assert room.figures["wc-1.top"].value == 420


def test_a_urinal_of_no_stated_height_hangs_at_610() -> None:
    """Rim of a urinal for adults. From memory (M)."""
    urinal = {"kind": "urinal", "centre": 700, "ware": "urinal-brodwel-330", "frame": "frame-urinal-1310"}
    room, _ = room_of({"survey.floor.build_up": [], "design.appliances.0": urinal})
    assert room.figures["urinal-1.top"].value == 610


def test_flush_inlet_and_outlet_of_a_pan_are_135_apart() -> None:
    """EN 33; about 100 from outlet to studs and 35 from studs to inlet. From memory (M)."""
    room, _ = room_of()
    assert room.figures["wc-1.inlet"].value - room.figures["wc-1.outlet"].value == 135
    assert room.figures["wc-1.studs"].value - room.figures["wc-1.outlet"].value == 100


@pytest.mark.parametrize(("apart", "state"), [(180, "passes"), (230, "passes"), (200, "fails")])
def test_a_pan_hangs_on_studs_180_or_230_apart(apart: float, state: str) -> None:
    """180 usual, 230 the other; an article on the holes of wall-hung WCs (V3)."""
    assert found(spacing, "Stud spacing", room_of(None, {"pan-ondel-530.stud_spacing": apart}), "WC 1").state == state


@pytest.mark.parametrize(("apart", "state"), [(280, "passes"), (180, "passes"), (230, "fails")])
def test_a_basin_hangs_on_bolts_280_or_180_apart(apart: float, state: str) -> None:
    """280, and 180 for hand basins under 450 wide: German articles on basin connections (V3)."""
    assert found(spacing, "Stud spacing", room_of(None, {"basin-fethan-500.stud_spacing": apart}), "Basin 1").state == state


@pytest.mark.parametrize(("centre", "state"), [(400, "passes"), (399, "look")])
def test_half_of_a_wc_space_800_wide_lies_to_each_side(centre: float, state: str) -> None:
    """BS 6465-2: activity space of a WC 800 by 600. From memory (M)."""
    assert found(centre_to_wall, "Elbow room to side wall", room_of({"design.appliances.0.centre": centre}), "WC 1").state == state


@pytest.mark.parametrize(("clear", "state"), [(600, "passes"), (599, "look")])
def test_a_wc_space_is_600_deep(clear: float, state: str) -> None:
    """As above (M): the room is as deep as pre-wall 225, covering 24 and pan 530 leave it."""
    worked = room_of({"survey.room.depth": 225 + 24 + 530 + clear})
    assert found(front, "Clear floor in front", worked, "WC 1").state == state


def wc() -> Changes:
    return {"kind": "wc", "centre": 700, "ware": "pan-ondel-530", "frame": "frame-wc-1120"}
