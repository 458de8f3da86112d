"""A small book made by hand, with round sizes that sums in the head can follow, and a plain straight room to begin from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

import pytest

from tundish.catalogue.book import Book, RuleFigure
from tundish.catalogue.item import Item, Offer, Unit
from tundish.field import Entry, put
from tundish.layout.design import Appliance, Design, Finish, PreWall, RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.survey.floor import Floor, Layer
from tundish.survey.pipes import Stack, Water
from tundish.survey.survey import Shell, Survey
from tundish.survey.wall import Wall

Sizes = dict[str, float]
FRAME: Sizes = {
    "width": 500, "leg": 40, "depth": 75, "feet": 2, "top_at": 1120, "mark_at": 1000, "sole_to_mark": 990,
    "brackets": 2, "bracket_at": 1090, "bracket_spacing": 440, "bracket_depth": 60,
}  # fmt: skip
WARE: Sizes = {"width": 360, "projection": 530, "stud_spacing": 180, "top_to_studs": 100, "ceramic": 20}
PIPED: Sizes = WARE | {"top_to_waste": 320, "top_to_supply": 290, "supply_spacing": 150}
ITEMS: Mapping[str, tuple[str, Sizes]] = {
    "strut-41x21": ("strut", {"face": 41, "depth": 21}),
    "strut-41x41": ("strut", {"face": 41, "depth": 41}),
    "timber-38x63": ("timber", {"face": 38, "depth": 63}),
    "timber-47x100": ("timber", {"face": 47, "depth": 100}),
    "capping-20-white": ("capping", {"thickness": 20, "width": 300}),
    "board-cement-12": ("board", {"length": 1200, "width": 800, "thickness": 12}),
    "board-cement-6": ("board", {"length": 1200, "width": 800, "thickness": 6}),
    "tile-600x300-white": ("tile", {"width": 600, "height": 300, "thickness": 9}),
    "rod-short": ("tie rod", {"reach_least": 100, "reach_most": 150}),
    "rod-middle": ("tie rod", {"reach_least": 130, "reach_most": 200}),
    "rod-long": ("tie rod", {"reach_least": 150, "reach_most": 300}),
    "rod-unknown": ("tie rod", {}),
    "frame-wc": ("wc frame", FRAME | {"plate_at": 1000, "cistern_inlet_at": 1010, "outlet_socket": 45, "inlet_socket": 55}),
    "frame-wc-top": (
        "wc frame",
        FRAME
        | {
            "plate_at": 1000,
            "cistern_inlet_at": 1010,
            "cistern_top_inlet_at": 1085,
            "plate_back": 70,
            "outlet_socket": 45,
            "inlet_socket": 55,
        },
    ),
    "frame-basin": ("basin frame", FRAME | {"depth": 60, "bracket_depth": 50}),
    "frame-bidet": ("bidet frame", FRAME),
    "frame-urinal": ("urinal frame", FRAME | {"top_at": 1310, "plate_at": 1230}),
    "frame-urinal-plain": ("urinal frame", FRAME | {"top_at": 1310}),
    "frame-one-foot": ("basin frame", FRAME | {"feet": 1}),
    "frame-sheetless": ("wc frame", FRAME),
    "pan": ("wc pan", WARE | {"studs_to_outlet": 100, "studs_to_inlet": 35, "outlet_insertion": 45, "inlet_insertion": 50}),
    "basin": ("basin", PIPED | {"top_to_studs": 55, "stud_spacing": 280}),
    "bidet": ("bidet", PIPED | {"top_to_waste": 225, "top_to_supply": 225, "supply_spacing": 120}),
    "urinal": ("urinal", WARE | {"top_to_studs": -320, "top_to_waste": 120, "top_to_supply": -500}),
    "valve": ("shower valve", {"width": 180, "projection": 60, "supply_spacing": 150}),
    "spout": ("wall spout", {"width": 220, "projection": 180, "supply_spacing": 150}),
    "bar": ("support bar", {"width": 360, "depth": 40, "reach_least": 200, "reach_most": 360}),
    "rail": ("grab rail", {"length": 600, "projection": 90}),
    "rail-drop": ("drop-down rail", {"width": 110, "projection": 765}),
    "rest": ("back rest", {"width": 640, "spacing": 600, "projection": 160}),
    "seat": ("seat", {"thickness": 20}),
    "seat-sheetless": ("seat", {}),
    "plate": ("flush plate", {"width": 240, "height": 160}),
    "tap": ("tap", {}),
    "soil-pipe-110": ("soil pipe", {"diameter": 110, "bore": 104}),
    "waste-pipe-32": ("waste pipe", {"diameter": 36, "bore": 30}),
    "waste-pipe-40": ("waste pipe", {"diameter": 43, "bore": 38}),
    "waste-pipe-50": ("waste pipe", {"diameter": 56, "bore": 50}),
    "copper-15": ("water pipe", {"diameter": 15, "bore": 13.6}),
    "insulation-15": ("insulation", {"diameter": 15, "thickness": 13}),
}
ROLES = {
    "strut": "strut-41x21",
    "timber stud": "timber-38x63",
    "floor noggin": "timber-47x100",
    "soil pipe 110": "soil-pipe-110",
    "waste pipe 32": "waste-pipe-32",
    "waste pipe 40": "waste-pipe-40",
    "waste pipe 50": "waste-pipe-50",
    "copper 15": "copper-15",
    "pipe insulation 15": "insulation-15",
}
FIGURES: Mapping[str, tuple[float, str]] = {
    "layout.datum": (1000, "mm"),
    "frames.bracket_clear": (20, "mm"),
    "layout.washer_and_nut": (15, "mm"),
    "tiling.bed": (3, "mm"),
    "boards.floor_gap": (10, "mm"),
    "prewall.ceiling_gap": (10, "mm"),
    "frames.plate_back": (80, "mm"),
    "prewall.capping_bed": (3, "mm"),
    "prewall.capping_over": (15, "mm"),
    "prewall.upright_centres": (400, "mm"),
    "prewall.near": (100, "mm"),
    "prewall.end_gap": (3, "mm"),
    "prewall.tie_centres": (1300, "mm"),
    "prewall.tie_foot": (21, "mm"),
    "prewall.strut_overhang": (50, "mm"),
    "prewall.joist_width": (47, "mm"),
    "drainage.least_run": (150, "mm"),
    "drainage.soil_fall": (25, "mm/m"),
    "drainage.soil_fittings": (190, "mm"),
    "drainage.waste_32_most": (1.7, "m"),
    "drainage.waste_fall": (20, "mm/m"),
    "drainage.swing": (75, "mm"),
    "drainage.waste_32_shortest": (0.7, "m"),
    "drainage.waste_32_shortest_fall_most": (87, "mm/m"),
    "drainage.waste_32_short": (1.1, "m"),
    "drainage.waste_32_short_fall_most": (44, "mm/m"),
    "drainage.waste_32_fall_most": (22, "mm/m"),
    "drainage.waste_40_fall_most": (44, "mm/m"),
    "drainage.waste_50_fall_most": (90, "mm/m"),
    "void.clip": (10, "mm"),
    "void.finger": (20, "mm"),
    "void.crossing": (5, "mm"),
    "drainage.waste_tail": (120, "mm"),
    "water.run_height": (150, "mm"),
    "water.runs_apart": (100, "mm"),
    "water.under_floor": (110, "mm"),
    "heights.wc": (420, "mm"),
    "heights.bidet": (420, "mm"),
    "heights.basin": (850, "mm"),
    "heights.urinal": (610, "mm"),
    "heights.accessible_wc": (480, "mm"),
    "heights.shower_valve": (1100, "mm"),
    "heights.wall_spout": (1000, "mm"),
    "traps.bottle_waste": (320, "mm"),
    "traps.bottle_supply": (250, "mm"),
    "traps.pedestal_waste": (330, "mm"),
    "traps.pedestal_supply": (280, "mm"),
    "traps.hidden_waste": (200, "mm"),
    "traps.hidden_supply": (260, "mm"),
    "access.rail": (680, "mm"),
    "access.rail_aside": (320, "mm"),
    "access.back_rest": (690, "mm"),
}
BARS = {"strut-41x21": 3000.0, "timber-38x63": 2400.0}
ITEMS_OF = {
    "wc": ("pan", "frame-wc"),
    "basin": ("basin", "frame-basin"),
    "bidet": ("bidet", "frame-bidet"),
    "urinal": ("urinal", "frame-urinal"),
    "accessible wc": ("pan", "frame-wc"),
    "shower valve": ("valve", "bar"),
    "wall spout": ("spout", "bar"),
}


def made(code: str, kind: str, sizes: Sizes) -> Item:
    unit: Unit = "mm" if kind in {"strut", "timber", "soil pipe", "waste pipe"} else "each"
    units = {name: "each" if name in {"feet", "brackets"} else "mm" for name in sizes}
    return Item(
        code, code.replace("-", " "), kind, "Test", unit, {name: (float(size), units[name]) for name, size in sizes.items()}, sheet="sheet"
    )


@pytest.fixture(scope="session")
def book() -> Book:
    offers = {code: (Offer(code, "shop", code, length, Decimal(10), "2026-01-01", length),) for code, length in BARS.items()}
    figures = {key: RuleFigure(key, value, unit, key, "test", "2026-01-01", value) for key, (value, unit) in FIGURES.items()}
    return Book({code: made(code, *each) for code, each in ITEMS.items()}, ROLES, {}, {}, offers, figures)


@pytest.fixture(scope="session")
def plain() -> RoomPlan:
    """Two metres of brick wall on concrete, 20 of floor to come, a pre-wall 1,200 high from wall to wall. Nothing hangs on it."""
    survey = Survey(
        room=Shell(width=Entry(2000), depth=Entry(1800), height=Entry(2400)),
        wall=Wall(construction="brick", stud_centres=Entry(400), first_stud=Entry(400)),
        floor=Floor(
            kind="concrete", joist_centres=Entry(400), build_up=(Layer(what="Screed", thickness=Entry(12)), Layer(thickness=Entry(8)))
        ),
        stack=Stack(from_left=Entry(150), from_wall=Entry(130), branch_invert=Entry(160)),
        water=Water(cold_from_left=Entry(300), hot_from_left=Entry(350)),
    )
    prewall = PreWall(from_left=Entry(0), depth=Entry(225), top=Entry(1200))
    return RoomPlan(survey=survey, design=Design(prewall=prewall, finish=Finish(layers=Entry(1), joint=Entry(2))))


@pytest.fixture(scope="session")
def hang() -> Callable[..., Appliance]:
    """An appliance of a kind, with its centre and its top, and anything else by name."""

    def hung(kind: str, centre: float, top: float | None = None, **more: object) -> Appliance:
        ware, frame = ITEMS_OF[kind]
        one = Appliance(kind=kind, centre=Entry(centre), top=None if top is None else Entry(top), ware=ware, frame=frame)
        for name, value in more.items():
            one = put(one, name, value)
        return one

    return hung


@pytest.fixture(scope="session")
def planned(plain: RoomPlan) -> Callable[..., RoomPlan]:
    """The plain room with these appliances, and inputs changed by path; a bare number is taken as measured."""

    def changed(*appliances: Appliance, **changes: object) -> RoomPlan:
        plan = put(plain, "design.appliances", appliances)
        for path, value in changes.items():
            bare = isinstance(value, int | float) and not isinstance(value, bool)
            plan = put(plan, path.replace("__", "."), Entry(float(value)) if bare else value)  # type: ignore[arg-type]
        return plan

    return changed


@pytest.fixture(scope="session")
def work(book: Book, planned: Callable[..., RoomPlan]) -> Callable[..., Room]:
    """As `planned`, worked out."""

    def worked(*appliances: Appliance, **changes: object) -> Room:
        return work_out(planned(*appliances, **changes), book)

    return worked
