"""Materials, orders and setting out: amounts in words, sums, heights from both floors and from the datum."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from tests.documents.test_quote import blocks_of
from tundish.catalogue.item import Offer
from tundish.documents import cut_list, materials, order_list, setting_out
from tundish.documents.block import Amount, Facts, FillIn, Paragraph, Points, Row, SideBySide, Sums, Table
from tundish.documents.index import NAMES, build, build_all
from tundish.documents.paper import lines_of, surname
from tundish.documents.rod import marks_of, rod
from tundish.estimate import Estimate
from tundish.layout.room import Room


def table_of(blocks: tuple[object, ...]) -> Table:
    return next(block for block in blocks if isinstance(block, Table))


def offer(pack: float = 1, length: float = 0, width: float = 0) -> Offer:
    return Offer("x", "shop", "X1", pack, Decimal(1), "2026-01-01", length, width)


@pytest.mark.parametrize(
    ("unit", "of", "words"),
    [
        ("each", offer(100), "100"),
        ("kg", offer(3.5), "3.5 kg"),
        ("mm", offer(3000, 3000), "3,000 mm"),
        ("m²", offer(2.88, 2400, 1200), "2,400 × 1,200"),
        ("each", offer(), "1"),
    ],
)
def test_a_pack_in_words(unit: str, of: Offer, words: str) -> None:
    assert order_list.pack_words(unit, of) == words


@pytest.mark.parametrize(
    ("amount", "unit", "words"), [(55.62, "each", "56"), (1200, "each", "1,200"), (2.049, "m²", "2.05 m²"), (1, "visit", "1 visit")]
)
def test_an_amount_has_its_unit_and_what_is_counted_is_whole(amount: float, unit: str, words: str) -> None:
    assert order_list.amount_words(amount, unit) == words


def test_every_line_stands_in_the_materials_once_and_costs_add_up(one: Estimate) -> None:
    table = table_of(materials.build(one).blocks)
    rows = [row for row in table.rows if not row.group]
    assert len(rows) == len(one.lines)
    assert sum((row.cells[5] for row in rows if isinstance(row.cells[5], Decimal)), Decimal(0)) == sum(
        (each.cost for each in one.buying.purchases), Decimal(0)
    )
    groups = [row.group for row in table.rows if row.group]
    assert len(set(groups)) == len(groups)


def test_what_there_is_and_what_is_bought_are_told_apart(worked: dict[str, Estimate]) -> None:
    rows = {row.cells[0]: row.cells for row in table_of(materials.build(worked["102"]).blocks).rows}
    assert rows["Fethan 600 basin"][4] == "client's own"
    assert rows["Soil pipe 110"][3:5] == (Amount("245 mm", "mm"), "none to buy")
    assert rows["Elbow 15"][2:5] == (Amount("10"), Amount("5"), "5")
    assert rows["Strut corner bracket 90°, 2 + 2 holes"][4] == "1 × 10"


def test_what_has_no_price_is_said(worked: dict[str, Estimate]) -> None:
    base = worked["101"]
    first, *others = base.buying.purchases
    without = replace(
        base, buying=replace(base.buying, purchases=(replace(first, priced=False), *others)), price=replace(base.price, not_priced=("X",))
    )
    assert materials.buy_words(without.buying.purchases[0]) == "not priced"
    words = [block.text for block in materials.build(without).blocks if isinstance(block, Paragraph)]
    assert words == ["Not priced: X. They are not in the total."]


def test_nothing_left_over_is_said(worked: dict[str, Estimate]) -> None:
    base = worked["101"]
    (left,) = [
        block for block in materials.build(replace(base, buying=replace(base.buying, left_over=()))).blocks if isinstance(block, Points)
    ]
    assert left.items == ("Nothing",)


def test_orders_add_up(one: Estimate) -> None:
    for order, made in zip(one.buying.orders, order_list.build_all(one), strict=True):
        rows = table_of(made.blocks).rows
        for row in rows:
            assert Decimal(str(row.cells[5])) * Decimal(str(row.cells[7])) == row.cells[8]
        (sums,) = [block for block in blocks_of(made) if isinstance(block, Sums)]
        assert sum((Decimal(str(row.cells[8])) for row in rows), order.carriage) == sums.rows[-1][1]
        assert sums.rows[0] == ("Carriage" if order.carriage else "Carriage, free at this amount", order.carriage)


def test_what_is_counted_is_needed_whole_as_on_the_materials_list(one: Estimate) -> None:
    counted = {each.line.item.name for each in one.buying.purchases if each.line.amount.unit == "each"}
    listed = {row.cells[0]: row.cells[2] for row in table_of(materials.build(one).blocks).rows if not row.group}
    rows = [row for made in order_list.build_all(one) for row in table_of(made.blocks).rows if row.cells[1] in counted and row.cells[2]]
    assert rows
    assert all(row.cells[2] == listed[row.cells[1]] for row in rows)


def test_what_two_suppliers_share_is_needed_of_each_for_its_share(one: Estimate) -> None:
    """Their needs together are the job's, and what is held of it is told once."""
    first, second, *_ = one.buying.orders
    purchase, pick = next((each, pick) for each, pick in first.rows if pick.packs > 1 and len(each.picks) == 1 and pick.offer.pack == 1)
    halves = [order_list.asked(replace(pick, packs=packs)) for packs in (1, pick.packs - 1)]
    split = [order_list.Placed(order.supplier, (half,), Decimal(0)) for order, half in zip((first, second), halves, strict=True)]
    held = (purchase.from_kits + purchase.from_rack + purchase.from_stock).value
    rows = [table_of(made.blocks).rows[0].cells for made in order_list.build_all(one, split)]
    to_buy = purchase.to_buy.value
    assert [row[4] for row in rows] == [Amount("1"), Amount(f"{to_buy - 1:,g}")]
    assert [row[2] for row in rows] == [Amount(f"{1 + held:,g}"), rows[1][4]]
    assert rows[1][3] == "–"


def test_what_will_not_come_of_an_order_is_needed_of_the_next(one: Estimate) -> None:
    order = next(order for order in one.buying.orders if any(pick.packs > 1 and pick.offer.pack == 1 for _, pick in order.rows))
    purchase, pick = next((each, pick) for each, pick in order.rows if pick.packs > 1 and pick.offer.pack == 1)
    line = order_list.asked(pick)
    sent = order_list.Placed(order.supplier, (replace(line, short=1),), Decimal(0), "P1", "2026-12-01", "by email")
    again = order_list.Placed(order.supplier, (replace(line, packs=1),), Decimal(0))
    rows = [table_of(made.blocks).rows[0].cells for made in order_list.build_all(one, (sent, again))]
    assert [row[4] for row in rows] == [Amount(f"{purchase.to_buy.value - 1:,g}"), Amount("1")]


def test_an_order_says_when_and_where_to(worked: dict[str, Estimate], changed: Callable[..., Estimate]) -> None:
    facts = next(block for block in order_list.build_all(worked["101"])[0].blocks if isinstance(block, Facts))
    assert dict(facts.columns)["Needed by"] == ("Mon 7 Dec 2026",)
    assert dict(facts.columns)["Deliver to"][0] == "Ms R. Hathersby"
    open_ = next(block for block in order_list.build_all(changed("101", terms__start=""))[0].blocks if isinstance(block, Facts))
    assert dict(open_.columns)["Needed by"] == ("to be agreed",)


def test_a_supplier_charges_vat_whether_or_not_the_trader_does(worked: dict[str, Estimate]) -> None:
    for made in (*order_list.build_all(worked["101"]), *order_list.build_all(worked["103"])):
        (sums,) = [block for block in blocks_of(made) if isinstance(block, Sums)]
        (note,) = [block.text for block in blocks_of(made) if isinstance(block, Paragraph) and block.tone == "note"]
        assert note.endswith(f"it would be £{(sums.rows[-1][1] / 5).quantize(Decimal('0.01')):,}.")


def test_every_height_is_given_from_both_floors_and_the_datum(room: Room, one: Estimate) -> None:
    floor, datum = room.finished_floor.value, room.figures["datum"].value
    table = table_of(setting_out.build_all(one)[0].blocks)
    heads = [column.head for column in table.columns]
    for row in (row for row in table.rows if not row.group):
        bare, finished, beside = (row.cells[heads.index(head)] for head in ("Bare floor", "Finished", "Datum"))
        assert isinstance(bare, float)
        assert finished == bare - floor
        off = 0 if beside == "on it" else float(str(beside).replace("−", "-").replace(",", ""))
        assert off == pytest.approx(bare - datum, abs=0.5)
        assert off == int(off)


def test_heights_of_one_appliance_run_from_the_top_down(room: Room) -> None:
    for placed in room.placed:
        heights = [mark.height.value for mark in marks_of(placed)]
        assert heights == sorted(heights, reverse=True)
        assert [mark.label for mark in marks_of(placed) if mark.client] == [rod_words(placed.kind)]


def rod_words(kind: str) -> str:
    return {"wc": "Top of pan", "basin": "Top of basin", "bidet": "Top of bidet", "urinal": "Lip of urinal"}[kind]


def test_the_rod_runs_from_the_top_to_the_bare_floor(room: Room) -> None:
    made = rod(room)
    assert all(upper.height.value >= lower.height.value for upper, lower in itertools.pairwise(made))
    assert made[-1].label == "Bare floor"
    assert len({mark.key for mark in made}) == len(made)
    assert any(mark.label == ("Top of steel" if room.prewall.built_of == "steel" else "Top of studwork") for mark in made)


def test_a_floor_to_be_confirmed_is_given_with_its_range(worked: dict[str, Estimate]) -> None:
    words = [block.text for block in setting_out.build_all(worked["102"])[0].blocks if isinstance(block, Paragraph)]
    assert "The finished floor is 28 (TBC: 26 to 34) higher." in words[0]


def test_what_is_not_in_hand_is_not_for_drilling(worked: dict[str, Estimate]) -> None:
    rows = table_of(setting_out.build_all(worked["103"])[0].blocks).rows
    assert [row.group for row in rows if row.group and row.tbc] == [
        "WC 1: sizes not confirmed, do not drill",
        "Urinal 1: sizes not confirmed, do not drill",
    ]


def test_a_wall_without_ware_branch_or_cautions_has_a_sheet(changed: Callable[..., Estimate]) -> None:
    bare = replace(changed("101", rooms__0__design__appliances=(), rooms__0__survey__stack__branch_invert=None), cautions=())
    blocks = setting_out.build_all(bare)[0].blocks
    assert [row.cells[0] for row in table_of(blocks).rows if not row.group] == ["Top of steel", "Top of pre-wall"]
    assert not [block for block in blocks if isinstance(block, Points)]
    (beside,) = [block for block in blocks if isinstance(block, SideBySide)]
    assert [block.title for block in beside.right if isinstance(block, FillIn)] == ["Check this sheet on the wall first"]


def test_a_tie_rod_that_does_not_fit_is_said(worked: dict[str, Estimate]) -> None:
    (room,) = worked["101"].rooms
    without = replace(room, placed=tuple(replace(placed, tie_rod=None) for placed in room.placed))
    tables = [block for block in setting_out.build_all(replace(worked["101"], rooms=(without,)))[0].blocks if isinstance(block, Table)]
    assert [row.cells[1] for row in tables[1].rows if row.cells[0] == "Tie rods"] == ["none fits", "none fits"]


def test_without_branch_invert_no_fall_is_promised(changed: Callable[..., Estimate]) -> None:
    (made,) = setting_out.build_all(changed("101", rooms__0__survey__stack__branch_invert=None))
    (beside,) = [block for block in made.blocks if isinstance(block, SideBySide)]
    assert len(beside.right) == 1
    labels = [row.cells[0] for row in table_of(made.blocks).rows]
    assert "Branch invert at stack" not in labels


def test_the_papers_come_in_the_order_a_job_needs_them(worked: dict[str, Estimate]) -> None:
    keys = [document.key for document in build_all(worked["101"])]
    orders = [f"order-{order.supplier.key}" for order in worked["101"].buying.orders]
    assert orders
    named = [key for key, _ in NAMES]
    several: dict[str, list[str]] = {"orders": orders, "variations": [], "invoices": [], "statement": []}
    assert keys == [key for name in named for key in several.get(name, [name])]
    assert named.index("quote") < named.index("setting-out") < named.index("materials") < named.index("cut-list")
    assert [len(build(key, worked["101"])) for key in named] == [len(several.get(key, [key])) for key in named]


@pytest.mark.parametrize(("name", "last"), [("Ms R. Hathersby", "Hathersby"), ("Trust", "Trust"), ("  ", ""), ("", ""), ("Ann ", "Ann")])
def test_the_last_word_of_a_name_stands_on_the_paper(name: str, last: str) -> None:
    assert surname(name) == last


def test_empty_lines_of_an_address_are_left_out() -> None:
    assert lines_of(" 1 The Row \n\n  ZZ9 9ZZ\n") == ("1 The Row", "ZZ9 9ZZ")


def test_rows_have_a_cell_for_every_column(one: Estimate) -> None:
    tables = [block for document in build_all(one) for block in document.blocks if isinstance(block, Table)]
    for table in tables:
        for row in table.rows:
            assert isinstance(row, Row)
            assert row.group or len(row.cells) == len(table.columns)


def test_what_may_still_be_more_or_less_says_from_where_to_where(worked: dict[str, Estimate]) -> None:
    """The uprights of the family bathroom stand on a floor that may be 26 to 34; copper is cut for it too."""
    cuts = [row for block in cut_list.build(worked["102"]).blocks if isinstance(block, Table) for row in block.rows]
    upright = next(row for row in cuts if row.cells[1] == "upright")
    assert (upright.cells[3], upright.tbc, upright.note) == (1162, True, "do not cut yet, 1,160 to 1,168")
    lines = {str(row.cells[0]): row for row in table_of(materials.build(worked["102"]).blocks).rows if not row.group}
    copper = next(line.amount for line in worked["102"].lines if line.item.name == "Copper pipe 15")
    assert copper.low < copper.high
    assert lines["Copper pipe 15"].note == f"May be {copper.low:,.0f} to {copper.high:,.0f} mm, once all is decided"
    assert lines["Wall tile 600 × 300, grey stone look"].note == "", "counted alike either way"
