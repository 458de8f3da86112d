"""Facts of the trade as a fitter reads them: from a plain survey by the program's own chain to the setting-out sheet and the checks.

Where a source is not named beside it, a figure is common practice. See `asking.py` for how sources are marked.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from tundish.catalogue.load import supplied_book
from tundish.documents import setting_out
from tundish.documents.block import Table
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry
from tundish.layout.design import Appliance, Design, PreWall, RoomPlan
from tundish.survey.floor import Floor, Layer
from tundish.survey.pipes import Stack
from tundish.survey.survey import Shell, Survey

FRAMES = {"wc": "frame-wc-1120", "basin": "frame-basin-1120"}


def worked(
    ware: str, kind: str = "wc", *, top: float | None = None, centre: float = 1000, depth: float = 225, also: tuple[Appliance, ...] = ()
) -> Estimate:
    """One appliance on a wall three metres wide, 28 of floor to come, as somebody begins: what is not said is as usual."""
    one = Appliance(
        kind=kind,
        name={"wc": "WC 1", "basin": "Basin 1"}[kind],
        centre=Entry(centre),
        top=None if top is None else Entry(top),
        ware=ware,
        frame=FRAMES[kind],
        seat="seat-ondel-plain" * (kind == "wc"),
        tap="tap-mixer-tall" * (kind == "basin"),
    )
    survey = Survey(
        room=Shell(width=Entry(3000), depth=Entry(2000), height=Entry(2400)),
        floor=Floor(build_up=(Layer(thickness=Entry(28)),)),
        stack=Stack(from_left=Entry(200), branch_invert=Entry(160)),
    )
    design = Design(prewall=PreWall(depth=Entry(depth)), appliances=(one, *also))
    return estimate(Job(rooms=(RoomPlan(name="Bathroom", survey=survey, design=design),)), supplied_book())


def row(made: Estimate, mark: str) -> Mapping[str, object]:
    """What the sheet says of a mark, by the heads of its columns."""
    blocks = setting_out.build(made, made.rooms[0]).blocks
    table = next(block for block in blocks if isinstance(block, Table) and block.columns[0].head == "Mark")
    cells = next(each.cells for each in table.rows if each.cells[0] == mark)
    return {column.head: cell for column, cell in zip(table.columns, cells, strict=True)}


def states(made: Estimate, rule: str) -> set[str]:
    return {each.state for each in made.findings if each.rule == rule}


def test_studs_at_320_of_a_pan_at_415_stand_680_below_the_datum_of_a_metre() -> None:
    made = worked("pan-ondel-530", top=415)
    studs = row(made, "Fixing studs")
    assert (studs["Finished"], studs["Bare floor"], studs["Datum"]) == (320, 348, "−680")
    assert made.rooms[0].figures["datum"].value == 1000 + 28


@pytest.mark.parametrize(("pan", "where"), [("pan-ondel-530", "910, 1,090"), ("pan-brodwel-540", "885, 1,115")])
def test_studs_of_a_pan_are_marked_180_or_230_apart(pan: str, where: str) -> None:
    """EN 33, from memory (M); an article on the holes of wall-hung WCs (V3)."""
    made = worked(pan)
    assert row(made, "Fixing studs")["Left wall"] == where
    assert states(made, "frames/spacing") == {"passes"}


def test_bolts_of_a_basin_at_850_are_marked_at_795_and_280_apart() -> None:
    """Bolts 280 apart: EN 31, from memory (M); German articles on basin connections (V3)."""
    made = worked("basin-fethan-500", "basin", top=850)
    bolts = row(made, "Basin studs")
    assert (bolts["Finished"], bolts["Bare floor"], bolts["Left wall"]) == (795, 823, "860, 1,140")
    assert states(made, "frames/spacing") == {"passes"}


@pytest.mark.parametrize(("centre", "where", "state"), [(350, "100 to 600", "passes"), (349, "99 to 599", "fails")])
def test_a_basin_frame_is_marked_as_near_as_100_to_a_side_wall(centre: float, where: str, state: str) -> None:
    made = worked("basin-fethan-500", "basin", centre=centre)
    assert row(made, "Frame top")["Left wall"] == where
    assert states(made, "frames/side") == {state}


def test_a_basin_is_joined_by_a_waste_of_one_and_a_quarter() -> None:
    """A plumbing textbook (V2)."""
    made = worked("basin-fethan-500", "basin")
    asked = {need.role: line.item for line in made.lines for need in line.needs}
    (trap,) = [item for role, item in asked.items() if role.startswith("basin trap")]
    assert trap.ends[0].nominal == "G 1 1/4"
    assert {each.state for each in made.findings if each.title == "Every end joined"} == {"passes"}


@pytest.mark.parametrize(("depth", "state"), [(225, "passes"), (200, "fails")])
def test_225_to_the_frame_front_leaves_room_for_a_110_soil_pipe_and_200_does_not(depth: float, state: str) -> None:
    """The pan's pipe runs to the stack behind the frame of another between them."""
    other = Appliance(kind="wc", name="WC 2", centre=Entry(900), ware="pan-ondel-530", frame=FRAMES["wc"], seat="seat-ondel-plain")
    made = worked("pan-ondel-530", centre=1700, depth=depth, also=(other,))
    assert {each.state for each in made.findings if each.rule == "prewall/void" and each.place.endswith("WC 1")} == {state}
