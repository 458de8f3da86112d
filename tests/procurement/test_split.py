"""The best split of suppliers, against trying every number of packs."""

from __future__ import annotations

import itertools
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.item import Offer, Supplier
from tundish.procurement.purchase import Pick, Want
from tundish.procurement.split import Split, best, cheapest, near, quick, told

POUNDS = st.integers(20, 900).map(lambda pence: Decimal(pence) / 100)


def supplier(key: str, carriage: Decimal, free_above: Decimal, days: int) -> Supplier:
    return Supplier(key, key, "", "", "", carriage, free_above, days)


SUPPLIERS = st.tuples(*(st.builds(supplier, st.just(key), POUNDS, POUNDS.map(lambda one: one * 3), st.integers(1, 4)) for key in "abc"))


@st.composite
def offers(draw: st.DrawFn, item: str) -> tuple[Offer, ...]:
    made = []
    for key in draw(st.lists(st.sampled_from("abc"), min_size=1, max_size=2, unique=True)):
        price = draw(POUNDS)
        lower = price * Decimal("0.75")
        breaks = draw(st.sampled_from([(), ((3, lower),)]))
        days = draw(st.none() | st.integers(1, 4))
        pack, least = draw(st.sampled_from((1, 2, 5))), draw(st.integers(1, 2))
        made.append(Offer(item, key, f"{key}{item}", pack, price, "2026-01-01", least=least, breaks=breaks, lead_days=days))
    return tuple(made)


@st.composite
def wants(draw: st.DrawFn) -> tuple[Want, ...]:
    return tuple(
        Want(draw(st.integers(1, 5)), draw(offers(item)), draw(st.booleans())) for item in draw(st.sampled_from(("x", "xy", "xyz")))
    )


def allowed(want: Want, offer: Offer) -> list[int]:
    """By the words: none, or at least the least; no more than alone would do, unless the least or a break asks for it."""
    alone = -(-want.amount // want.holds(offer))
    starts = {offer.least, *(number for number, _ in offer.breaks)}
    return [0, *(n for n in range(1, 12) if n >= offer.least and (n <= alone or n in starts))]


def every_way(want: Want) -> list[tuple[Pick, ...]]:
    ways = itertools.product(*(allowed(want, offer) for offer in want.offers))
    return [
        tuple(Pick(offer, n) for offer, n in zip(want.offers, way, strict=True) if n)
        for way in ways
        if sum(n * want.holds(offer) for offer, n in zip(want.offers, way, strict=True)) >= want.amount
    ]


def worth(split: Split) -> tuple[Decimal, int, int]:
    return (split.cost, split.orders, split.days)


@settings(max_examples=40, deadline=None)
@given(wants(), SUPPLIERS)
def test_no_split_of_all_that_are_possible_is_better(asked: tuple[Want, ...], sellers: tuple[Supplier, ...]) -> None:
    by_key = {one.key: one for one in sellers}
    found = best(asked, by_key)
    tried = min(worth(told(way, by_key, proven=True)) for way in itertools.product(*(every_way(want) for want in asked)))
    assert found.proven
    assert worth(found) == tried
    assert worth(found)[0] <= quick(asked, by_key).cost


def offer(item: str, key: str, price: str, pack: float = 1) -> Offer:
    return Offer(item, key, f"{key}{item}", pack, Decimal(price), "2026-01-01")


TWO = {"a": supplier("a", Decimal(12), Decimal(100), 2), "b": supplier("b", Decimal(12), Decimal(100), 5)}


def test_a_second_order_is_not_worth_its_carriage() -> None:
    asked = (Want(1, (offer("x", "a", "50"),)), Want(1, (offer("y", "a", "9"), offer("y", "b", "4"))))
    assert (quick(asked, TWO).orders, best(asked, TWO).orders) == (2, 1)
    assert best(asked, TWO).cost == Decimal(71)


def test_of_equal_money_the_sooner_is_taken() -> None:
    asked = (Want(1, (offer("y", "b", "4"), offer("y", "a", "4"))),)
    assert [pick.offer.supplier for few in best(asked, TWO).picks for pick in few] == ["a"]


@pytest.mark.parametrize(("needed", "packs", "cost"), [(2, 3, "6.00"), (9, 10, "15.00"), (10, 10, "15.00")])
def test_more_is_taken_where_a_break_makes_it_cheaper(needed: int, packs: int, cost: str) -> None:
    one = Offer("x", "a", "ax", 1, Decimal(4), "2026-01-01", breaks=((3, Decimal(2)), (10, Decimal("1.50"))))
    pick = cheapest(Want(needed, (one,)))
    assert pick is not None
    assert (pick.packs, pick.cost) == (packs, Decimal(cost))


def test_nothing_wanted_is_nothing_bought() -> None:
    assert best((), TWO).cost == 0
    assert best((Want(3, ()),), TWO).picks == ((),)


@settings(deadline=None, max_examples=60)
@given(wants(), SUPPLIERS, st.integers(1, 5))
def test_near_what_was_bought_all_is_met_and_nothing_else_is_bought_anew(
    few: tuple[Want, ...], sellers: tuple[Supplier, ...], more: int
) -> None:
    by_key = {one.key: one for one in sellers}
    before = best(few, by_key)
    kept = dict(zip(few, before.picks, strict=True))
    assert near(few, by_key, kept).cost == before.cost
    changed = (*few[:-1], replace(few[-1], amount=few[-1].amount + more))
    made = near(changed, by_key, kept)
    met = (sum(pick.packs * want.holds(pick.offer) for pick in picks) for want, picks in zip(changed, made.picks, strict=True))
    assert all(amount >= want.amount for amount, want in zip(met, changed, strict=True))
    least = best(changed, by_key).cost
    assert made.cost == least or (made.cost > least and made.picks[:-1] == before.picks[:-1])


def test_near_nothing_is_the_quick_split() -> None:
    few = (Want(3, (offer("x", "a", "2.00"), offer("x", "b", "1.00"))),)
    by_key = {key: supplier(key, Decimal(5), Decimal(50), 1) for key in "ab"}
    assert near(few, by_key, {}) == quick(few, by_key)


def test_more_of_one_thing_is_bought_where_carriage_is_paid_already() -> None:
    pipe, screw = (offer("pipe", "a", "3.00"), offer("pipe", "b", "2.90")), (offer("screw", "a", "4.00"),)
    by_key = {key: supplier(key, Decimal(5), Decimal(500), 1) for key in "ab"}
    before = Want(1, pipe), Want(1, screw)
    kept = dict(zip(before, best(before, by_key).picks, strict=True))
    made = near((Want(2, pipe), Want(1, screw)), by_key, kept)
    assert (made.goods, made.carriage) == (Decimal("10.00"), Decimal(5))
    assert quick((Want(2, pipe), Want(1, screw)), by_key).carriage == Decimal(10)


def test_what_comes_to_be_brought_for_nothing_is_shared_out_anew() -> None:
    pipe, screw = (offer("pipe", "a", "3.00"), offer("pipe", "b", "2.00")), (offer("screw", "a", "4.00"), offer("screw", "b", "4.10"))
    by_key = {"a": supplier("a", Decimal(5), Decimal(8), 1), "b": supplier("b", Decimal(6), Decimal(500), 1)}
    before = Want(1, pipe), Want(1, screw)
    kept = dict(zip(before, best(before, by_key).picks, strict=True))
    wanted = Want(2, pipe), Want(1, screw)
    assert near(wanted, by_key, kept).cost == best(wanted, by_key).cost == Decimal("10.00")
