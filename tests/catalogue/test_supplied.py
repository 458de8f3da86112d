"""The catalogue that comes with the program makes sense to a fitter."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest

from tundish.catalogue.item import End, Item
from tundish.catalogue.load import supplied_book
from tundish.field import fields_of
from tundish.layout.appliances.kind import Kind
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import FRAME_KINDS, WARE_KINDS, Appliance, Finish, PreWall

BOOK = supplied_book()
FRAMED = tuple(each for each in KINDS.values() if not each.on_bar)
TAKES = {"compression waste": {"push-fit waste", "solvent waste"}}
"""A compression end takes the pipe of both families."""
EXISTING = ("cast iron", "round the stack")
"""Found on site and not sold."""


def size(item: Item, name: str) -> float:
    return item.size(name).value


def joins(one: End, other: End) -> bool:
    systems = {one.system, *TAKES.get(one.system, ())} & {other.system, *TAKES.get(other.system, ())}
    return bool(systems) and one.nominal == other.nominal and one.gender != other.gender


def test_it_is_large_enough_to_choose_from() -> None:
    assert len(BOOK.items) > 200
    assert len(BOOK.suppliers) == 3
    for kind in (*FRAME_KINDS, *WARE_KINDS, "seat", "flush plate", "tap", "strut", "board", "tile", "tie rod"):
        assert len(BOOK.of_kind(kind)) >= 2, kind


def test_every_item_has_a_price_and_a_name_of_its_own() -> None:
    assert set(BOOK.offers) == set(BOOK.items)
    assert len({item.name for item in BOOK.items.values()}) == len(BOOK.items)


@pytest.mark.parametrize("record", [PreWall, Finish, Appliance])
def test_what_a_new_job_starts_with_can_be_bought(record: type) -> None:
    made = record()
    for name, field in fields_of(record).items():
        if field.kind == "item" and getattr(made, name):
            assert BOOK.item(getattr(made, name)).kind in field.options
        elif field.kind == "item":
            assert BOOK.of_kind(*field.options)


@pytest.mark.parametrize("pan", BOOK.of_kind("wc pan"), ids=lambda item: item.code)
def test_a_pan_with_its_top_at_420_hangs_from_usual_studs(pan: Item) -> None:
    studs = 420 - size(pan, "top_to_studs")
    assert 315 <= studs <= 330
    assert studs - size(pan, "studs_to_outlet") == pytest.approx(222.5, abs=7.5)  # outlet about 220 above the finished floor
    assert size(pan, "studs_to_inlet") + size(pan, "studs_to_outlet") == 135  # EN 33, from memory
    assert size(pan, "flush") <= 6  # Water Fittings Regulations 1999, schedule 2, paragraph 25
    assert size(pan, "flush_small") <= size(pan, "flush") * 2 / 3


@pytest.mark.parametrize("kind", FRAMED, ids=lambda kind: kind.key)
def test_every_appliance_suits_every_frame_of_its_kind_at_its_usual_height(kind: Kind) -> None:
    usual = BOOK.figure(f"heights.{kind.figure}").value - (25 if kind.to_seat else 0)
    for frame in BOOK.of_kind(kind.frame):
        for ware in BOOK.of_kind(kind.ware):
            assert size(frame, "studs_low") <= usual - size(ware, "top_to_studs") <= size(frame, "studs_high")
            assert size(ware, "stud_spacing") in {size(frame, "spacing_a"), size(frame, "spacing_b")}


@pytest.mark.parametrize("frame", BOOK.of_kind(*dict.fromkeys(each.frame for each in FRAMED)), ids=lambda item: item.code)
def test_a_frame_stands_up(frame: Item) -> None:
    assert size(frame, "mark_at") == size(frame, "sole_to_mark")  # feet in on a floor with no build-up
    assert size(frame, "studs_high") < size(frame, "bracket_at") < size(frame, "top_at")
    assert size(frame, "bracket_spacing") < size(frame, "width")
    assert size(frame, "least_side") - size(frame, "width") / 2 <= 100
    assert not frame.has("plate_at") or size(frame, "studs_high") < size(frame, "plate_at") < size(frame, "top_at")


@pytest.mark.parametrize("frame", BOOK.of_kind("wc frame"), ids=lambda item: item.code)
def test_a_soil_pipe_passes_behind_a_wc_frame_225_from_the_wall(frame: Item) -> None:
    pipe = size(BOOK.role("soil pipe 110"), "diameter")
    assert size(frame, "depth_least") <= 225 <= size(frame, "depth_most")
    assert 225 - size(frame, "depth") >= pipe + BOOK.figure("void.clip").value + BOOK.figure("void.finger").value


def test_tie_rods_leave_no_reach_between_them() -> None:
    rods = sorted(BOOK.of_kind("tie rod"), key=lambda rod: size(rod, "reach_least"))
    for shorter, longer in pairwise(rods):
        assert size(longer, "reach_least") < size(shorter, "reach_most") < size(longer, "reach_most")
    wc = BOOK.item("frame-wc-1120")
    for lies_between in (0.0, size(BOOK.item("strut-41x21"), "depth"), size(BOOK.item("strut-41x41"), "depth")):
        reach = 225 - size(wc, "bracket_depth") - lies_between
        assert size(BOOK.item("tie-rod-medium"), "reach_least") <= reach <= size(BOOK.item("tie-rod-medium"), "reach_most")


@pytest.mark.parametrize(
    ("code", "diameter"),
    [
        ("waste-pipe-32", 34),
        ("waste-pipe-40", 41),
        ("waste-pipe-50", 54),
        ("waste-pipe-32-solvent", 36),
        ("waste-pipe-40-solvent", 43),
        ("soil-pipe-110", 110),
        ("soil-pipe-82", 82),
        ("copper-15", 15),
        ("copper-22", 22),
    ],
)
def test_pipes_have_their_published_outside_diameters(code: str, diameter: float) -> None:
    pipe = BOOK.item(code)  # EN 1057 by a UK tube maker's table; wastes by a merchant's table
    assert size(pipe, "diameter") == diameter
    assert [end.diameter for end in pipe.ends] == [diameter, diameter]
    assert 0.85 * diameter < size(pipe, "bore") < diameter


@pytest.mark.parametrize(("code", "bore"), [("copper-15", 13.6), ("copper-22", 20.2)])
def test_copper_has_its_published_bore(code: str, bore: float) -> None:
    assert size(BOOK.item(code), "bore") == bore  # EN 1057, walls 0.7 and 0.9


def test_every_end_can_be_joined_by_something_sold() -> None:
    ends = [(item.code, end) for item in BOOK.items.values() for end in item.ends]
    lonely = [(code, end) for code, end in ends if end.system not in EXISTING and not any(joins(end, other) for _, other in ends)]
    assert lonely == []


def test_a_kit_holds_what_rules_ask_for_or_what_is_left_over() -> None:
    asked = {*BOOK.roles.values(), *(rod.code for rod in BOOK.of_kind("tie rod"))}
    for code, parts in BOOK.kits.items():
        inside = {part.item for part in parts}
        assert inside - asked <= {"waste-adaptor-50-40"}, code
        if BOOK.item(code).kind == "wc frame":
            assert {BOOK.roles[role] for role in ("pan bend 90", "soil adaptor 90-110", "fixing set M12")} <= inside
    assert not {"frame-wc-bare", "frame-basin-bare"} & set(BOOK.kits)


def test_a_roles_item_is_of_the_role_s_size() -> None:
    for role, code in BOOK.roles.items():
        for number in re.findall(r"\d{2,}", role):
            assert number in f"{code} {BOOK.item(code).name}", role


def test_a_larger_pack_is_never_dearer_by_the_piece() -> None:
    for offers in BOOK.offers.values():
        for one in offers:
            for other in offers:
                if one.supplier == other.supplier and one.pack < other.pack and not one.length:
                    assert other.price / int(other.pack * 10) <= one.price / int(one.pack * 10), one.item


def test_tiles_weigh_what_their_material_does() -> None:
    for tile in BOOK.of_kind("tile"):
        # About 1,700 kg/m³ for ceramic and 2,300 for porcelain by a merchant's table, 2,700 for stone.
        density = size(tile, "weight") / size(tile, "thickness") * 1000
        assert density == pytest.approx({"ceramic": 1700, "porcelain": 2300, "limestone": 2700}[tile.words["material"]], rel=0.03)


def test_suppliers_live_where_nobody_does() -> None:
    for supplier in BOOK.suppliers.values():
        assert re.fullmatch(r"01632 960\d{3}|07700 900\d{3}", supplier.phone)
        assert re.search(r"\nZZ9 \d[A-Z]{2}$", supplier.address)


def test_no_figure_of_the_rules_lies_idle(pytestconfig: pytest.Config) -> None:
    source = "\n".join(path.read_text(encoding="utf-8") for path in (Path(pytestconfig.rootpath) / "src").rglob("*.py"))
    families = {key.partition(".")[0] for key in BOOK.figures if f'f"{key.partition(".")[0]}.{{' in source}
    assert [key for key in BOOK.figures if f'"{key}"' not in source and key.partition(".")[0] not in families] == []
