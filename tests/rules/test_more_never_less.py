"""Every rule along what it turns on: more load never passes where less failed, a longer run never needs fewer, and so on for each.

DRIVERS says which; a rule that has nothing to grow along says why in NOTHING_GROWS, and one that is tried elsewhere names that test.
"""

from __future__ import annotations

import ast
from collections.abc import Mapping
from itertools import combinations
from pathlib import Path
from typing import Any

import hypothesis
import pytest
from hypothesis import strategies as st

from tests.rules.drivers import Changes, Driver, Said, said_at
from tests.rules.test_cases import given, the_book
from tundish.layout.design import WITH_BOSSES
from tundish.rules.book import RULES
from tundish.rules.rule import Need
from tundish.rules.site.waste import rubbish, waste_volume

HERE = Path(__file__).parent
BY_VALVE = "by an air admittance valve"
STUDS = {"survey.wall.construction": "timber stud"}


def row_of(count: int, **one: Any) -> Changes:
    """So many more of an appliance at the end of the row, 900 apart."""
    more = {f"design.appliances.{4 + place}": {"name": f"More {place}", "centre": 4_800 + 900 * place, **one} for place in range(count)}
    return {"survey.room.width": 14_000, "design.prewall.run": 13_000, **more}


def wcs(count: int) -> Changes:
    return row_of(count, kind="wc", top=420, ware="pan-ondel-530", frame="frame-wc-1120", seat="seat-ondel-soft")


def basins(count: int) -> Changes:
    return row_of(count, kind="basin", top=850, ware="basin-fethan-500", frame="frame-basin-1120", tap="tap-mixer-lever")


def valves(count: int) -> Changes:
    return row_of(count, kind="shower valve", top=1_100, ware="shower-valve-orlen", frame="bar-300", head=2_100)


def at_noggins(count: int) -> Changes:
    return {**wcs(count), **STUDS, "design.prewall.backing": "wall studs and noggins"}


def at_ply(count: int) -> Changes:
    return {**wcs(count), **STUDS, "design.prewall.backing": "ply over the wall studs"}


def accessible(count: int) -> Changes:
    rails = {"rail": "rail-hamlow-600", "drop_rail": "rail-hamlow-drop-850", "back_rest": "back-rest-hamlow"}
    return row_of(count, kind="accessible wc", top=458, ware="pan-tisbel-750", frame="frame-wc-1120", **rails)


def thing(what: str, **where: Any) -> Changes:
    return {"survey.obstacles.0": {"what": what, **where}}


def door(**where: Any) -> Changes:
    return {"survey.openings.0": {"kind": "door", **where}}


def hatch(**where: Any) -> Changes:
    return {"design.prewall.hatches": [{"item": "panel-tiled-300", "from_left": 1_450, "bottom": 300, **where}]}


def to_an_entry(place: int, size: str = "110", invert: float = 300) -> Changes:
    entry = {"name": "Boss", "size": size, "from_left": 300, "invert": invert}
    return {"survey.entries.0": entry, f"design.appliances.{place}.drains_to": "Boss"}


LENGTH = (
    "boards/board", "boards/joint-tape", "boards/screws", "boards/tanking", "fixings/floor-rails", "labour/boarding", "labour/frames",
    "noise/strip", "tiling/bed", "tiling/grout", "tiling/sealant",
)  # fmt: skip
"""What a longer pre-wall of any kind takes more of, as long as no bar of it is in two pieces: each has fixings near both its ends."""
STEEL = ("prewall/brackets", "prewall/nuts", "prewall/steel")
FRAMES = (
    "drainage/plugs", "fixings/feet", "fixings/tie-rods", "frames/fixing-sets", "frames/frame", "frames/tie-rods",
    "frames/ware", "labour/first-fix", "labour/second-fix", "water/clips", "water/feeds", "water/insulation", "water/inlets",
    "water/solder",
)  # fmt: skip
"""What one more appliance takes more of."""

HELD = {"design.appliances.0.cold_at": 150, "design.appliances.1.hot_at": 150, "design.appliances.1.cold_at": 150}
"""Supplies held at one height; left to the rule, more that is in their way may send them over it."""

DRIVERS = (
    Driver("a longer pre-wall", 2_400, 7_500, lambda to: {"survey.room.width": to},
           more=(*LENGTH, *STEEL, "fixings/ties", "site/blades"), rises=("prewall/fits",)),
    Driver("a longer pre-wall with a free end", 4_400, 9_000, lambda to: {"survey.room.width": 9_500, "design.prewall.run": to},
           more=(*LENGTH, *STEEL, "fixings/ties", "site/hire"), room="row"),
    Driver("a longer pre-wall of timber", 2_400, 6_000, lambda to: {"survey.room.width": to, "design.prewall.built_of": "timber"},
           more=(*LENGTH, "prewall/timber", "fixings/timber-screws", "tiling/trim")),
    Driver("a longer self-standing pre-wall", 2_400, 7_500,
           lambda to: {"survey.room.width": to, "design.prewall.built_of": "self-standing"}, more=("prewall/feet", *STEEL)),
    Driver("a longer pre-wall that is capped and not tanked", 2_400, 7_500,
           lambda to: {"survey.room.width": to, "design.prewall.shelf": False, "design.finish.tanking": False},
           more=("prewall/capping", "tiling/primer")),
    Driver("height of a run that stops against a corner", 400, 1150, lambda top: {
               "design.appliances": [], "design.prewall.top": top,
               "design.further": [{"wall": "A", "stands": "across its left-hand corner", "setback": 900, "top": 1400}]},
           more=("prewall/closing-battens",)),
    Driver("a higher pre-wall", 1_150, 2_000, lambda to: {"design.prewall.top": to, "survey.room.height": 2_600},
           more=(*(each for each in LENGTH if each != "fixings/floor-rails"), *STEEL)),
    Driver("a shelf further over the frame", 1_150, 2_000,
           lambda to: {"design.prewall.top": to, "design.appliances.0.plate_on": "shelf"}, worse=("frames/plate-on-shelf",),
           rises=("frames/height",)),
    Driver("a deeper pre-wall", 150, 600, lambda to: {"design.prewall.depth": to},
           more=("boards/board", "boards/tanking", "tiling/bed", "tiling/grout"), rises=("frames/depth", "frames/reach", "prewall/void"),
           falls=("space/front",)),
    Driver("a pre-wall nearer a door", 150, 600, lambda to: {"design.prewall.depth": to, **door(wall="B", from_left=350)},
           worse=("space/openings",)),
    Driver("one more WC", 0, 4, wcs, more=(*FRAMES, "drainage/branch", "drainage/soil-clips"), room="row",
           rises=("water/loading",)),
    Driver("one more WC where pads have room", 0, 4, lambda to: {**wcs(to), "survey.floor.build_up": [{"what": "Tile", "thickness": 20}]},
           more=("frames/pads",), room="row"),
    Driver("one more basin", 0, 4, basins, room="row",
           more=("drainage/traps", "drainage/waste", "drainage/waste-clips", "water/plates", "water/plugs", "water/clips", "water/feeds"),
           worse=("water/loading",)),
    Driver("one more WC, not tanked", 0, 4, lambda to: {**wcs(to), "design.finish.tanking": False},
           more=("tiling/pipe-seals",), room="row"),
    Driver("one more shower valve", 0, 4, valves, more=("frames/bars", "fixings/bars", "water/in-wall"), room="row"),
    Driver("one more WC on a stud wall", 0, 4, lambda to: {**wcs(to), **STUDS},
           more=("prewall/wall-strut", "fixings/wall-strut"), room="row"),
    Driver("one more WC on noggins", 0, 4, at_noggins, more=("prewall/wall-noggins",), room="row"),
    Driver("one more WC on ply", 0, 4, at_ply, more=("prewall/wall-ply",), room="row"),
    Driver("one more WC on joists", 0, 4, lambda to: {**wcs(to), "survey.floor.kind": "chipboard on joists"},
           more=("prewall/floor-noggins",), room="row"),
    Driver("a greater load on a frame", 1, 12, lambda to: {"loads.wc": to}, more=("frames/spreader-plates",)),
    Driver("one more accessible WC", 0, 4, accessible, more=("frames/rails",), room="row"),
    Driver("a frame further from where a rail is fixed", 0, 900, lambda to: {
        "survey.room.width": 6_000, "design.appliances.1.centre": 1_000 + to,
        "design.appliances.0": {"kind": "accessible wc", "name": "WC 1", "centre": 480, "top": 458, "ware": "pan-tisbel-750",
                                "frame": "frame-wc-1120", "drop_rail": "rail-hamlow-drop-850"}}, better=("frames/rail-backing",)),
    Driver("one more valve on a branch", 0, 4, lambda to: {f"design.appliances.{place}.vented": BY_VALVE for place in range(to)},
           more=("drainage/vents",), room="row"),
    Driver("a WC further from the stack", 150, 5_000, lambda to: {
        **HELD, "survey.room.width": 8_000, "design.appliances.0.centre": 500 + to},
           more=("drainage/branch", "drainage/soil-clips", "water/feeds", "water/insulation"), worse=("drainage/branch-length",)),
    Driver("a urinal further from the stack", 100, 5_000, lambda to: {
        "survey.room.width": 6_000, "survey.stack.from_left": 5_200 - to, "design.appliances": [{
            "kind": "urinal", "name": "Urinal 1", "centre": 5_200, "top": 610, "ware": "urinal-brodwel-330",
            "frame": "frame-urinal-1310"}]},
           more=("drainage/waste", "drainage/waste-clips"), worse=("drainage/waste-length",)),
    Driver("a higher basin", 500, 1_000, lambda to: {"design.appliances.1.top": to}, better=("drainage/boss", "drainage/boss-strap"),
           more=("water/feeds",), falls=("frames/slider",)),
    Driver("a higher entry", 0, 300, lambda to: {"survey.stack.branch_invert": to}, falls=("drainage/branch-fall",),
           worse=("drainage/boss-strap",)),
    Driver("a basin's entry higher", 515, 570, lambda to: to_an_entry(1, invert=to), falls=("drainage/waste-fall",)),
    Driver("a narrower entry", 0, 3, lambda to: to_an_entry(3, ("110", "50", "40", "32")[to]), worse=("drainage/entry",), room="row"),
    Driver("a deeper seal", 20, 120, lambda to: {"trap-bottle-32.seal": to}, better=("drainage/seals",)),
    Driver("a greater cross-flow zone", 0, 400, lambda to: {
        "drainage.crossflow": to, "survey.stack.from_left": 1_200, "design.appliances.1":
        {"kind": "wc", "name": "WC 2", "centre": 1_700, "top": 420, "ware": "pan-ondel-530", "frame": "frame-wc-1120",
         "branch": WITH_BOSSES}},
           worse=("drainage/opposed",)),
    Driver("more straight pipe on the stack", 100, 900, lambda to: {"survey.stack.room_above": to}, better=("drainage/stack",)),
    Driver("more that drains into the stack", 0, 400,
           lambda to: {"survey.stack.others": to, "design.piping.drains_by": "EN 12056-2, system III"}, worse=("drainage/stack-flow",)),
    Driver("a valve that lets in more air", 1, 40,
           lambda to: {"aav-110.air": to, "design.appliances.0.vented": BY_VALVE}, better=("drainage/vents",)),
    Driver("a thicker wall", 60, 400, lambda to: {"survey.wall.thickness": to, "survey.stack.behind": True, "survey.water.behind": True},
           more=("drainage/sleeves", "water/sleeves")),
    Driver("more floor laid afterwards", 0, 200, lambda to: {"survey.floor.build_up.0.thickness": to}, more=("frames/packers",)),
    Driver("more floor laid afterwards, and nothing under the feet", 0, 200, lambda to: {
        "survey.floor.build_up.0.thickness": to, **{f"design.appliances.{place}.packers": 0 for place in range(2)}},
           rises=("frames/feet-travel",), worse=("frames/feet-travel",)),
    Driver("more floor under the floor tiles", 0, 60,
           lambda to: {"survey.floor.build_up.0.thickness": to, "design.floor.tile": "tile-600x300-white"},
           better=("tiling/floor-build-up",)),
    Driver("a larger floor", 900, 5_000, lambda to: {"survey.room.depth": to, "design.floor.tile": "tile-600x300-white"},
           more=("labour/floor-tiling", "tiling/floor-bed", "tiling/floor-grout", "tiling/floor-sealant"), better=("space/front",)),
    Driver("a wider tile joint", 1, 10, lambda to: {"design.finish.joint": to}, more=("tiling/grout",)),
    Driver("a heavier tile", 5, 60, lambda to: {"tile-600x300-white.weight": to}, worse=("loads/tiles",)),
    Driver("a board that carries more", 5, 80, lambda to: {"board-cement-12.tiling_limit": to}, better=("loads/tiles",)),
    Driver("a heavier pan", 5, 60, lambda to: {"pan-ondel-530.weight": to}, more=("safety/weights",)),
    Driver("more that comes out", 0, 12, lambda to: {"survey.existing.appliances": to}, more=("labour/strip-out",)),
    Driver("one more niche", 0, 4, lambda to: {
        "survey.room.width": 6_000, "design.prewall.niches": [{"from_left": 2_500 + 600 * place, "bottom": 500} for place in range(to)]},
           more=("boards/board", "tiling/bed", "tiling/trim", *STEEL)),
    Driver("one more hatch", 0, 4, lambda to: {
        "survey.room.width": 6_000, "design.prewall.hatches":
        [{"item": "panel-tiled-300", "from_left": 2_500 + 600 * place, "bottom": 500} for place in range(to)]}, more=("boards/hatches",)),
    Driver("a deeper niche", 20, 400, lambda to: {"design.prewall.niches": [{"from_left": 1_050, "bottom": 300, "depth": to}]},
           worse=("prewall/recesses",)),
    Driver("a longer noggin", 100, 1_500, lambda to: {
        "survey.room.width": 6_000, "design.prewall.noggins": [{"from_left": 2_500, "level": 900, "reach": to}]},
           rises=("prewall/noggins",), more=("prewall/steel",)),
    Driver("a window further from the anchors", 0, 700,
           lambda to: {"survey.openings.0": {"kind": "window", "from_left": 1_000 + to, "width": 50, "sill": 1_300}},
           better=("fixings/anchor-places",), room="row"),
    Driver("a basin further from the WC", 0, 1_500, lambda to: {"survey.room.width": 6_000, "design.appliances.1.centre": 1_000 + to},
           better=("frames/neighbours",)),
    Driver("a WC further from the wall", 200, 1_000, lambda to: {"survey.room.width": 6_000, "design.appliances.0.centre": to},
           better=("frames/side", "space/centre-to-wall")),
    Driver("a basin further from another", 0, 1_500, lambda to: {
        "survey.room.width": 6_000, "design.piping.use": "often", "design.appliances.1.centre": 1_200 + to},
           better=("space/side-by-side",)),
    Driver("a board whose supports may be further apart", 100, 900, lambda to: {"board-cement-12.centres_most": to},
           better=("boards/centres",)),
    Driver("a deeper plate opening", 5, 80, lambda to: {"plate-round-white.wall_most": to}, better=("frames/plate",)),
    Driver("a hatch further from the valves", 0, 900, lambda to: hatch(from_left=1_450 - to), worse=("space/access",)),
    Driver("a larger hatch", 60, 400, lambda to: {**hatch(), "panel-tiled-300.width": to, "panel-tiled-300.height": to},
           better=("space/hatch-in-reach",)),
    Driver("a pan that comes out further", 400, 900, lambda to: {
        "pan-tisbel-750.projection": to, "design.appliances.0.kind": "accessible wc", "design.appliances.0.ware": "pan-tisbel-750"},
           better=("space/accessible-wc",)),
    Driver("a hand basin that comes out further", 150, 400, lambda to: {
        "basin-sallick-400.projection": to, "design.appliances.0.kind": "accessible wc", "design.appliances.1": {
            "kind": "basin", "name": "Basin 1", "centre": 1_600, "top": 730, "ware": "basin-sallick-400", "frame": "frame-basin-narrow"}},
           worse=("space/accessible-basin", "space/front")),
    Driver("a deeper bath", 400, 1_600, lambda to: thing("bath", wall="C", from_left=700, width=1_700, depth=to),
           worse=("space/bath-and-tray", "space/front", "space/obstacles")),
    Driver("a wider door", 300, 1_200, lambda to: door(wall="D", from_left=300, width=to), worse=("space/door-over-floor",)),
    Driver("a wider door at the pre-wall", 300, 2_000, lambda to: door(wall="D", from_left=100, width=to), worse=("space/door-swing",)),
    Driver("a higher slope", 300, 2_400, lambda to: {"survey.slopes.0": {"kind": "stair soffit", "at_wall": to, "reach": 1_400}},
           better=("space/headroom", "space/under-slope")),
    Driver("a deeper room for guests", 1_000, 3_000,
           lambda to: {"survey.room.depth": to, "design.appliances.0.visitable": True}, better=("space/visitable",)),
    Driver("a deeper room for a wheelchair", 1_000, 3_000,
           lambda to: {"survey.room.depth": to, "design.users": [{"name": "Nan", "person": "wheelchair user"}]}, better=("space/turning",)),
    Driver("a larger flush", 3, 12, lambda to: {"pan-ondel-530.flush": to, "pan-ondel-530.flush_small": 2}, worse=("water/flush",)),
    Driver("a larger lesser flush", 2, 8, lambda to: {"pan-ondel-530.flush_small": to}, worse=("water/flush",)),
    Driver("a greater air gap", 5, 60, lambda to: {"frame-wc-1120.air_gap": to}, better=("water/air-gap",)),
    Driver("a clip that takes more room", 0, 80, lambda to: {**HELD, "void.clip": to}, worse=("prewall/crossings", "prewall/void")),
    Driver("frames further apart", 0, 700, lambda to: {"survey.room.width": 6_000, "design.appliances.1.centre": 1_250 + to},
           better=("frames/brackets", "frames/neighbours")),
    Driver("a pre-wall that goes on past its last stud", 0, 800, lambda to: {
        **STUDS, "survey.room.width": 6_000, "design.prewall.run": 1_900 + to}, better=("prewall/struts-behind",)),
    Driver("more that touches board and floor", 2_400, 7_500, lambda to: {"survey.room.width": to}, rises=("noise/bridges",)),
)  # fmt: skip

ELSEWHERE: Mapping[str, str] = {
    "ends/joined": "test_joining.py::test_one_too_few_is_noticed",
    "loads/feet": "test_strength.py::test_more_load_never_passes_where_less_failed",
    "loads/overturning": "test_strength.py::test_more_load_never_passes_where_less_failed",
    "loads/strut": "test_strength.py::test_more_load_never_passes_where_less_failed",
    "loads/wall-noggins": "test_strength.py::test_more_load_never_passes_where_less_failed",
    "loads/wall-ply": "test_strength.py::test_more_load_never_passes_where_less_failed",
    "loads/wall-pull": "test_strength.py::test_more_load_never_passes_where_less_failed",
    "loads/wall-studs": "test_strength.py::test_more_load_never_passes_where_less_failed",
    "site/waste": "test_more_never_less.py::test_what_is_carried_away_is_never_less_than_what_comes_out",
    "tiling/floor-tiles": "../layout/test_tiles.py::test_tiles_that_are_cut_up_lie_between_the_least_by_area_and_one_for_each",
    "tiling/tiles": "../layout/test_tiles.py::test_tiles_that_are_cut_up_lie_between_the_least_by_area_and_one_for_each",
}
"""Where a rule's property is tried that is not here."""

FAMILIES: Mapping[str, str] = {
    "closing": "asks for something to be looked at, and judges no measure; readings of tests are judged in test_readings.py",
    "safety": "a caution that is there or not",
}
"""Families that judge nothing by how much there is of it, but for the rules of them that are asked above."""
NOTHING_GROWS: Mapping[str, str] = {
    **dict.fromkeys(("labour/making-good", "site/protect", "site/small"), "so much for each room, however large"),
    **dict.fromkeys(("prewall/in-corner", "prewall/joins", "prewall/moved", "prewall/runs-into"), "two fronts meet or do not"),
    "prewall/corner-struts": "the studs of a wall stand where they stand: a corner set out further may need the next one",
    "frames/spacing": "holes and studs agree or do not: wider is no better than narrower",
    "tiling/spacers": "so many a tile, and a longer wall may take fewer tiles: its cuts come out better",
    "water/under-floor": "a floor is solid or not",
}  # fmt: skip
"""Why a rule has nothing here that grows."""


@pytest.mark.parametrize("driver", DRIVERS, ids=lambda each: each.name)
@hypothesis.settings(max_examples=3)
@hypothesis.given(st.data())
def test_more_of_it_never_passes_where_less_failed_nor_needs_less(driver: Driver, data: st.DataObject) -> None:
    less = data.draw(st.integers(driver.low, driver.high - 1), "less")
    more = data.draw(st.integers(less + 1, driver.high), "more")
    one, other = said_at(driver, less), said_at(driver, more)
    for key in driver.more:
        assert {name: amount for name, amount in one[key].needs.items() if other[key].needs.get(name, 0.0) < amount - 1e-6} == {}, key
    for key in driver.worse:
        assert kinder(one[key], other[key]) == set(), key
    for key in driver.better:
        assert kinder(other[key], one[key]) == set(), key
    for key in driver.rises:
        assert lower(one[key], other[key]) == set(), key
    for key in driver.falls:
        assert lower(other[key], one[key]) == set(), key


def kinder(one: Said, other: Said) -> set[str]:
    """The checks that come out better in the other."""
    return {name for name, state in one.states.items() if other.states.get(name, 0) < state}


def lower(one: Said, other: Said) -> set[str]:
    """The checks whose value is less in the other."""
    return {name for name in one.has.keys() & other.has.keys() if other.has[name] < one.has[name] - 1e-6}


@pytest.mark.parametrize("driver", DRIVERS, ids=lambda each: each.name)
def test_each_of_its_rules_does_turn_on_it(driver: Driver) -> None:
    """From one end to the other something changes in what each rule says, or the property would hold of anything."""
    one, other = said_at(driver, driver.low), said_at(driver, driver.high)
    assert {key for key in driver.rules if one[key] == other[key]} == set()


def test_every_rule_has_a_property_or_says_why_not() -> None:
    asked = {key for driver in DRIVERS for key in driver.rules}
    named = (*sorted(asked), *ELSEWHERE, *NOTHING_GROWS)
    assert sorted(named) == sorted(each.key for each in RULES if each.family not in FAMILIES or each.key in asked)


@pytest.mark.parametrize("where", sorted(set(ELSEWHERE.values())))
def test_a_property_that_is_tried_elsewhere_is_there(where: str) -> None:
    name, _, test = where.partition("::")
    tree = ast.parse((HERE / name).resolve().read_text(encoding="utf-8"))
    assert test in {each.name for each in tree.body if isinstance(each, ast.FunctionDef)}


@hypothesis.settings(max_examples=10)
@hypothesis.given(st.integers(0, 60), st.integers(0, 40))
def test_what_is_carried_away_is_never_less_than_what_comes_out(tiles: int, heap: int) -> None:
    room, book = given({"room": "plain", "set": {"survey.existing.tiles_off_m2": tiles, "survey.existing.other_waste_m3": heap}})
    takes = {"rubble bag": book.figure("site.bag_m3").value}
    held = 0.0
    for need in rubbish.says(room, book):
        assert isinstance(need, Need)
        held += need.amount.value * (takes.get(need.role) or book.item(need.item).size("volume").value)
    assert held >= waste_volume(room, book).value - 1e-9


def test_a_thicker_board_of_one_material_never_spans_nor_carries_less() -> None:
    """By the sheets of the demonstration catalogue, and so by the checks that read them."""
    boards = sorted(the_book().of_kind("board"), key=lambda each: each.size("thickness").value)
    pairs = [(one, other) for one, other in combinations(boards, 2) if one.words["material"] == other.words["material"]]
    assert pairs
    for one, other in pairs:
        if other.size("thickness").value > one.size("thickness").value:
            assert other.size("centres_most").value >= one.size("centres_most").value, (one.code, other.code)
            assert other.size("tiling_limit").value >= one.size("tiling_limit").value, (one.code, other.code)
