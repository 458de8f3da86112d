"""Heights and depths that every fitter knows, reached by the program's own chain from the supplied catalogue.

Where a source is not named beside it, a figure is common practice. See `asking.py` for how sources are marked.
"""

from __future__ import annotations

import pytest

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.field import Entry
from tundish.layout.design import Appliance, Design, RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.survey.floor import Floor, Layer
from tundish.survey.pipes import Stack
from tundish.survey.survey import Shell, Survey

WARE = {
    "wc": ("pan-ondel-530", "frame-wc-1120"),
    "basin": ("basin-fethan-500", "frame-basin-1120"),
    "bidet": ("bidet-ondel-530", "frame-bidet-1120"),
}


@pytest.fixture(scope="module")
def book() -> Book:
    return supplied_book()


def hung(book: Book, kind: str, top: float | None = None, floor: float = 0, invert: float | None = None, centre: float = 1000) -> Room:
    """One appliance in a room two metres wide, its top at a height above the finished floor, blank for the usual one."""
    ware, frame = WARE[kind]
    one = Appliance(
        kind=kind,
        centre=Entry(centre),
        top=None if top is None else Entry(top),
        ware=ware,
        frame=frame,
        seat="seat-ondel-plain" * (kind == "wc"),
    )
    survey = Survey(
        room=Shell(width=Entry(3000)),
        floor=Floor(build_up=(Layer(thickness=Entry(floor)),)),
        stack=Stack(from_left=Entry(200), branch_invert=None if invert is None else Entry(invert)),
    )
    room = work_out(RoomPlan(survey=survey, design=Design(appliances=(one,))), book)
    assert not room.problems
    return room


def above_floor(room: Room, key: str) -> float:
    return room.figures[key].value - room.finished_floor.value


@pytest.mark.parametrize("floor", [0, 28, 90])
def test_a_pan_at_415_hangs_on_studs_at_320(book: Book, floor: float) -> None:
    """Common practice, from memory: studs 320, outlet 220, flush inlet 355 above the finished floor, whatever is laid on the bare one."""
    room = hung(book, "wc", top=415, floor=floor)
    assert above_floor(room, "wc-1.studs") == 320
    assert above_floor(room, "wc-1.outlet") == 220
    assert above_floor(room, "wc-1.inlet") == 355
    assert room.figures["wc-1.studs"].value == 320 + floor


def test_flush_inlet_135_above_the_outlet(book: Book) -> None:
    """EN 33, from memory."""
    figures = hung(book, "wc").figures
    assert figures["wc-1.inlet"].value - figures["wc-1.outlet"].value == 135


def test_the_usual_rim_is_420_and_so_the_usual_seat_430_to_450(book: Book) -> None:
    """Rim: VDI 6000-1:2008, as quoted in German trade press (V2). Seat: from memory, about 20 above it."""
    room = hung(book, "wc")
    assert above_floor(room, "wc-1.top") == 420
    assert 430 <= above_floor(room, "wc-1.seat") <= 450
    assert room.figures["wc-1.top"].tbc


def test_the_outlet_stands_at_220_to_230_at_usual_heights(book: Book) -> None:
    """220: the usual setting of a frame, German trade press (V2); rims since grew by up to 10."""
    assert 220 <= above_floor(hung(book, "wc"), "wc-1.outlet") <= 230


def test_a_basin_at_850_hangs_on_bolts_at_795(book: Book) -> None:
    """Common practice."""
    room = hung(book, "basin")
    assert above_floor(room, "basin-1.top") == 850
    assert above_floor(room, "basin-1.studs") == 795


def test_waste_and_supplies_of_a_basin_at_850(book: Book) -> None:
    """Waste 500 to 560, supplies 560 to 640 above the floor and 80 to 200 apart (V3)."""
    room = hung(book, "basin")
    assert 500 <= above_floor(room, "basin-1.waste") <= 560
    assert 560 <= above_floor(room, "basin-1.supply") <= 640
    assert 80 <= room.figures["basin-1.cold_from_left"].value - room.figures["basin-1.hot_from_left"].value <= 200


def test_225_from_wall_to_frame_front_lets_a_110_pipe_pass_behind_a_frame(book: Book) -> None:
    """Common practice: 225 is enough, with a clip behind the pipe and a finger beside it; 200 is not."""
    room = hung(book, "wc")
    behind = room.depth.value - room.placed[0].frame.size("depth").value
    pipe = book.role("soil pipe 110").size("diameter").value
    wanted = pipe + book.figure("void.clip").value + book.figure("void.finger").value
    assert room.depth.value == 225
    assert behind >= wanted > behind - 25


def test_the_datum_is_a_metre_line(book: Book) -> None:
    """Common practice."""
    assert above_floor(hung(book, "wc", floor=37), "datum") == 1000


@pytest.mark.parametrize(("one_in", "mm_per_m"), [(55.56, 18), (40, 25), (80, 12.5), (11.11, 90)])
def test_falls_by_the_metre(book: Book, one_in: float, mm_per_m: float) -> None:
    """D: one in so many is so much a metre. The invert is put where a run of 800 has that fall."""
    level = hung(book, "wc", top=420)
    outlet_invert = level.figures["wc-1.outlet"].value - book.role("soil pipe 110").size("bore").value / 2
    room = hung(book, "wc", top=420, invert=outlet_invert - 800 / one_in)
    assert room.figures["wc-1.run"].value == 800
    assert room.figures["wc-1.fall_rate"].value == pytest.approx(mm_per_m, rel=1e-3)


def test_a_basin_waste_goes_up_a_size_past_1_7_m(book: Book) -> None:
    """Approved Document H: 32 for 1.7 m at most; Plumbing Book 1, table 9.1 (V2)."""
    assert [hung(book, "basin", centre=200 + run).pipes_of("waste")[0].size for run in (1700, 1701)] == [32, 40]


def test_a_waste_of_1_7_m_falls_within_30_6_and_37_4(book: Book) -> None:
    """D: 18 to 22 mm a metre over 1.7 m."""
    assert 30.6 <= hung(book, "basin", centre=1900).figures["basin-1.fall"].value <= 37.4
