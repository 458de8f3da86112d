"""Buying: kits first, then the van, then whole packs of the cheapest offer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.catalogue.book import Book, RuleFigure
from tundish.catalogue.item import Item, KitPart, Offer, RackPiece, Supplier
from tundish.cutting.plan import Effort
from tundish.cutting.plans import plans
from tundish.figure import number
from tundish.pricing.build_up import used
from tundish.pricing.pennies import penny
from tundish.procurement.choose import choose
from tundish.procurement.purchase import Buying, Purchase, Want
from tundish.procurement.share import way_taken
from tundish.procurement.split import cheapest
from tundish.procurement.wishes import ALL_FROM_ONE, BY_A_DAY, Wishes
from tundish.rules.rule import Cut, Need
from tundish.takeoff.line import Line

ITEMS = {code: Item(code, code.capitalize(), "thing", "Things", "each", {}) for code in ("frame", "rod", "screw", "rare")}
SUPPLIERS = {
    "a": Supplier("a", "A & Co", "", "", "", Decimal(12), Decimal(100), 2),
    "b": Supplier("b", "B & Co", "", "", "", Decimal(0), Decimal(0), 2),
}


def offer(item: str, supplier: str, pack: float, price: str) -> Offer:
    return Offer(item, supplier, f"{supplier}-{item}-{pack:g}", pack, Decimal(price), "2026-01-01")


OFFERS = {
    "frame": (offer("frame", "a", 1, "90"),),
    "rod": (offer("rod", "a", 1, "4.00"), offer("rod", "b", 10, "15.00")),
    "screw": (offer("screw", "a", 100, "5.00"), offer("screw", "b", 100, "5.00")),
}


def bought(needs: Mapping[str, float], stock: Mapping[str, float] | None = None, *, own: bool = False) -> Buying:
    book = Book(ITEMS, {}, {"frame": (KitPart("rod", 2),)}, SUPPLIERS, OFFERS, {}, dict(stock or {}))
    lines = tuple(
        Line(ITEMS[code], number(amount, "each"), (Need(number(amount, "each"), "frames", code, item=code),), own)
        for code, amount in needs.items()
    )
    return choose(lines, (), book)


def test_a_kit_gives_before_the_van_and_the_van_before_the_shop() -> None:
    _, rods = bought({"frame": 1, "rod": 6}, {"rod": 1}).purchases
    assert (rods.from_kits.value, rods.from_stock.value, rods.to_buy.value) == (2, 1, 3)
    assert [(pick.offer.code, pick.packs) for pick in rods.picks] == [("a-rod-1", 3)]


def test_what_a_kit_holds_and_nobody_needs_is_left_over() -> None:
    (left,) = bought({"frame": 2}).left_over
    assert (left.item.code, left.amount) == ("rod", 4)


def test_the_larger_pack_is_bought_where_it_is_cheaper() -> None:
    pick = cheapest(Want(4, OFFERS["rod"]))
    assert pick is not None
    assert (pick.offer.pack, pick.packs, pick.cost) == (10, 1, Decimal("15.00"))


def test_of_equal_prices_the_first_supplier_is_taken() -> None:
    pick = cheapest(Want(150, OFFERS["screw"][::-1]))
    assert pick is not None
    assert (pick.offer.supplier, pick.packs) == ("a", 2)


def test_things_that_are_counted_are_needed_whole() -> None:
    (screws,) = bought({"screw": 100.2}).purchases
    assert screws.picks[0].packs == 2


def test_what_nobody_sells_is_not_priced_and_never_nothing() -> None:
    (rare,) = bought({"rare": 1}).purchases
    assert not rare.priced
    assert rare.picks == ()


def test_what_the_client_supplies_is_not_bought() -> None:
    buying = bought({"frame": 1}, own=True)
    assert buying.orders == ()
    assert buying.purchases[0].priced


def test_carriage_is_charged_until_the_order_is_large_enough() -> None:
    (small,) = bought({"frame": 1}).orders
    (large,) = bought({"frame": 2}).orders
    assert (small.goods, small.carriage) == (Decimal(90), Decimal(12))
    assert (large.goods, large.carriage) == (Decimal(180), Decimal(0))


@given(st.floats(0.1, 5_000), st.floats(0, 500))
def test_enough_is_held_and_never_a_pack_too_many(need: float, stock: float) -> None:
    (screws,) = bought({"screw": need}, {"screw": stock}).purchases
    packs = sum(pick.packs for pick in screws.picks)
    held = screws.from_stock.value + 100 * packs
    assert held >= need - 1e-6
    assert screws.from_stock.value <= stock
    assert packs == 0 or held - 100 < need + 1


@pytest.mark.parametrize("amount", [0.0, -1.0])
def test_nothing_needed_is_nothing_bought(amount: float) -> None:
    assert bought({"screw": amount}).orders == ()


def test_two_lines_share_one_kit_and_one_van_and_nothing_is_taken_twice() -> None:
    first, second = bought({"frame": 1}, {}), bought({"rod": 3}, {"rod": 2})
    assert first.purchases[0].from_kits.value == 0
    assert second.purchases[0].from_stock.value == 2
    book = Book(ITEMS, {}, {"frame": (KitPart("rod", 2),)}, SUPPLIERS, OFFERS, {}, {"rod": 1})
    needs = [("frame", 1.0), ("rod", 2.0), ("rod", 2.0)]
    lines = tuple(Line(ITEMS[code], number(amount, "each"), ()) for code, amount in needs)
    _, one, other = choose(lines, (), book).purchases
    assert one.from_kits.value + other.from_kits.value == 2
    assert one.from_stock.value + other.from_stock.value == 1
    assert one.to_buy.value + other.to_buy.value == 1


def test_a_van_that_is_owed_gives_nothing_and_takes_nothing() -> None:
    (screws,) = bought({"screw": 90}, {"screw": -50}).purchases
    assert (screws.from_stock.value, screws.to_buy.value, screws.picks[0].packs) == (0, 90, 1)


BAR, BOARD = Item("bar", "Bar", "strut", "Things", "mm", {}), Item("board", "Board", "board", "Things", "m²", {})
SAW = {
    key: RuleFigure(key, value, "mm", key, "a test", "2026-01-01", value)
    for key, value in {"cutting.kerf": 2.0, "cutting.sheet_kerf": 2.0, "cutting.keep": 300.0, "cutting.rack_worth": 0.0}.items()
}


def cut_and_bought(item: Item, cuts: tuple[Cut, ...], rack: tuple[RackPiece, ...], *offers: Offer, worth: float = 0.0) -> Purchase:
    share = {"cutting.rack_worth": replace(SAW["cutting.rack_worth"], value=worth)}
    book = Book({item.code: item}, {}, {}, SUPPLIERS, {item.code: offers}, SAW | share, rack=rack)
    amount = number(sum(cut.length.value * (cut.width.value / 1e6 if cut.width else 1) for cut in cuts), item.unit)
    lines = (Line(item, amount, (Need(amount, "frames", "a test", item=item.code, cuts=cuts),)),)
    (purchase,) = choose(lines, plans(lines, book), book).purchases
    return purchase


def test_bars_come_from_the_rack_and_then_the_shop() -> None:
    cuts = (Cut("A", number(800, "mm"), "rail"), Cut("B", number(1900, "mm"), "rail"))
    whole = Offer("bar", "a", "bar-2000", 2000, Decimal("9.00"), "2026-01-01", 2000)
    purchase = cut_and_bought(BAR, cuts, (RackPiece("R1", "bar", 1000),), whole)
    assert (purchase.from_rack.value, purchase.to_buy.value) == (800, 1900)
    assert [(pick.offer.code, pick.packs, pick.cost) for pick in purchase.picks] == [("bar-2000", 1, Decimal("9.00"))]
    assert purchase.priced


def test_sheets_come_from_the_rack_and_then_the_shop() -> None:
    cuts = (Cut("A", number(500, "mm"), "face", width=number(400, "mm")), Cut("B", number(1200, "mm"), "face", width=number(800, "mm")))
    whole = Offer("board", "b", "board-1200", 1, Decimal("24.00"), "2026-01-01", 1200, 800)
    purchase = cut_and_bought(BOARD, cuts, (RackPiece("R1", "board", 600, 400),), whole)
    assert purchase.from_rack.value == pytest.approx(0.2)
    assert purchase.to_buy.value == pytest.approx(0.96)
    assert purchase.cost == Decimal("24.00")


def test_a_job_pays_for_the_rack_where_the_trader_has_it_so() -> None:
    """By hand: a bar of 2,000 at 9.00 is 4.50 a metre, so the metre on the rack is 4.50, and half of that 2.25."""
    cuts = (Cut("A", number(800, "mm"), "rail"), Cut("B", number(1900, "mm"), "rail"))
    whole = Offer("bar", "a", "bar-2000", 2000, Decimal("9.00"), "2026-01-01", 2000)
    purchase = cut_and_bought(BAR, cuts, (RackPiece("R1", "bar", 1000),), whole, worth=50)
    assert (purchase.bought, purchase.rack_cost, purchase.cost) == (Decimal("9.00"), Decimal("2.25"), Decimal("11.25"))
    assert used(purchase) == penny(Decimal("9.00") * 1900 / 2000) + Decimal("2.25")


def test_everybody_who_cuts_to_a_length_or_sells_it_may_be_asked() -> None:
    """By hand: 1,600 at 5.00 a metre is 8.00; the other supplier's bar of just that length costs 8.20."""
    cuts = (Cut("A", number(1600, "mm"), "rail"),)
    to_length = Offer("bar", "a", "bar-cut", 1000, Decimal("5.00"), "2026-01-01", 6000)
    plain = Offer("bar", "b", "bar-1600", 1600, Decimal("8.20"), "2026-01-01", 1600)
    (pick,) = cut_and_bought(BAR, cuts, (), to_length, plain).picks
    assert (pick.offer.code, pick.offer.length, pick.packs, pick.cost) == ("bar-cut", 1600, 1, Decimal("8.00"))


def test_a_piece_that_nothing_is_long_enough_for_is_not_priced() -> None:
    whole = Offer("bar", "a", "bar-2000", 2000, Decimal("9.00"), "2026-01-01", 2000)
    assert not cut_and_bought(BAR, (Cut("A", number(2500, "mm"), "rail"),), (), whole).priced


def ways(wishes: Wishes = Wishes(), effort: Effort = Effort.BEST, **book: Any) -> Buying:  # noqa: B008
    held = Book(ITEMS, {}, {}, SUPPLIERS, OFFERS, {}, date="2026-11-25", **book)
    lines = tuple(Line(ITEMS[code], number(4, "each"), (Need(number(4, "each"), "frames", code, item=code),)) for code in ("rod", "screw"))
    return choose(lines, (), held, wishes, effort)


def taken(buying: Buying) -> list[str]:
    return sorted(pick.offer.code for purchase in buying.purchases for pick in purchase.picks)


def test_the_best_split_is_told_with_its_reason_and_what_the_others_cost() -> None:
    buying = ways()
    assert taken(buying) == ["b-rod-10", "b-screw-100"]
    assert "the least it can cost" in buying.reason
    assert {(way.aim, way.supplier, way.cost) for way in buying.ways} == {
        ("cheapest in all", "", Decimal(20)),
        ("all from one", "a", Decimal(33)),
        ("all from one", "b", Decimal(20)),
    }


@pytest.mark.parametrize("wishes", [Wishes(), Wishes(aim=ALL_FROM_ONE, supplier="b")])
def test_the_way_that_is_taken_is_told_before_others_are_looked_at(wishes: Wishes) -> None:
    """What a first answer comes to, as it is told of each way once all were looked at."""
    found = ways(wishes)
    told = way_taken(found, wishes, Book(ITEMS, {}, {}, SUPPLIERS, OFFERS, {}))
    (same,) = [way for way in found.ways if (way.aim, way.supplier) == (told.aim, told.supplier)]
    assert (told.cost, told.orders, told.days) == (same.cost, same.orders, same.days)


def test_all_from_one_is_bought_there_and_said_to_be_dearer() -> None:
    buying = ways(Wishes(aim=ALL_FROM_ONE, supplier="a"))
    assert taken(buying) == ["a-rod-1", "a-screw-100"]
    assert "all from A & Co was asked for; £13.00 more" in buying.reason


@pytest.mark.parametrize(("day", "codes"), [("2026-11-27", ["b-rod-10", "b-screw-100"]), ("2026-11-25", ["b-rod-10", "b-screw-100"])])
def test_by_a_day_says_what_comes_later(day: str, codes: list[str]) -> None:
    buying = ways(Wishes(aim=BY_A_DAY, by=day))
    assert taken(buying) == codes
    late = next(way for way in buying.ways if way.aim == BY_A_DAY)
    assert isinstance(late.elsewhere, tuple)


def test_favourites_are_taken_and_what_is_never_bought_is_not() -> None:
    assert taken(ways(favourites=frozenset({"a/a-rod-1"}))) == ["a-rod-1", "a-screw-100"]
    assert taken(ways(never=frozenset({"b"}))) == ["a-rod-1", "a-screw-100"]
    nobody = ways(never=frozenset({"a", "b"}))
    assert taken(nobody) == []
    assert not any(purchase.priced for purchase in nobody.purchases)


def test_the_reason_says_where_favourites_bind_it() -> None:
    assert "by what you always and never buy" in ways(favourites=frozenset({"a/a-rod-1"})).reason
    assert "by what you always" not in ways().reason


def test_a_price_that_does_not_hold_today_is_not_bought_at() -> None:
    old = {
        "rod": (
            Offer("rod", "a", "old", 1, Decimal(1), "2026-01-01", valid_to="2026-06-30"),
            Offer("rod", "a", "to come", 1, Decimal(1), "2027-01-01"),
            Offer("rod", "a", "now", 1, Decimal(9), "2026-01-01"),
        )
    }
    held = Book(ITEMS, {}, {}, SUPPLIERS, old, {}, date="2026-11-25")
    lines = (Line(ITEMS["rod"], number(1, "each"), ()),)
    assert taken(choose(lines, (), held)) == ["now"]


def test_what_one_supplier_would_cost_more_is_said() -> None:
    sellers = {key: Supplier(key, f"{key.upper()} & Co", "", "", "", Decimal(0), Decimal(0), 2) for key in "ab"}
    offers = {
        item: (offer(item, cheap, 1, "3"), offer(item, dear, 1, "5")) for item, cheap, dear in (("rod", "a", "b"), ("screw", "b", "a"))
    }
    lines = tuple(Line(ITEMS[code], number(1, "each"), ()) for code in offers)
    buying = choose(lines, (), Book(ITEMS, {}, {}, sellers, offers, {}), effort=Effort.BEST)
    assert buying.reason == "2 orders, £6.00 with carriage, in 2 days: the least it can cost. All from A & Co would be £2.00 more."
