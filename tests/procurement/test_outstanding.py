"""What is still to be ordered, and what is short across jobs."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tundish.catalogue.item import Item, Offer, Supplier
from tundish.figure import number
from tundish.procurement.outstanding import Ordered, Short, beyond, shortfall, still_to_order
from tundish.procurement.purchase import Buying, Order, Pick, Purchase
from tundish.takeoff.line import Line

ITEM = Item("rod", "Rod", "thing", "Things", "each", {})
OFFER = Offer("rod", "a", "R1", 1, Decimal(4), "2026-01-01")
SELLER = Supplier("a", "A & Co", "", "", "", Decimal(0), Decimal(0), 2)


def wanted(packs: int, stock: float = 0.0) -> Buying:
    nothing = number(0, "each")
    pick = Pick(OFFER, packs)
    line = Line(ITEM, number(packs + stock, "each"), ())
    purchase = Purchase(line, nothing, nothing, number(stock, "each"), (pick,))
    return Buying((purchase,), (Order(SELLER, ((purchase, pick),), pick.cost, Decimal(0)),), ())


def sent(packs: int, here: int = 0, short: int = 0, pack: float = 1) -> Ordered:
    return Ordered("rod", (0.0, 0.0), pack, packs, here, short)


@pytest.mark.parametrize(
    ("need", "orders", "left", "words"),
    [
        (5, (), 5, ""),
        (5, (sent(4),), 1, "sent 4, now need 5"),
        (4, (sent(4, here=3, short=1),), 1, "sent 4, 1 short"),
        (4, (sent(4, here=3, short=1), sent(1)), 0, "sent 5, now need 4, 1 short"),
        (3, (sent(4),), 0, "sent 4, now need 3"),
        (5, (sent(1, pack=4.0),), 1, "sent 1, now need 5"),
    ],
)
def test_only_what_was_not_sent_or_will_not_come_is_ordered(need: int, orders: tuple[Ordered, ...], left: int, words: str) -> None:
    (still,) = still_to_order(wanted(need), orders)
    assert (still.pick.packs, still.words) == (left, words)


def test_what_was_sent_and_is_not_wanted_any_more_is_told() -> None:
    assert beyond(wanted(3), (sent(4),)) == {"rod": 1}
    assert beyond(wanted(4), (sent(4),)) == {}


def test_jobs_share_what_one_of_them_opens() -> None:
    """Each job by itself buys a tape of 50 and uses 3 of it: with one on hand or on order nothing is short for both."""
    nothing, roll = number(0, "each"), replace(OFFER, pack=50.0)
    one = Purchase(Line(ITEM, number(3, "each"), ()), nothing, nothing, nothing, (Pick(roll, 1),))
    jobs = (Buying((one,), (), ()), Buying((one,), (), ()))
    assert shortfall(jobs, {"rod": 50}, {}, {}) == ()
    assert shortfall(jobs, {}, {"rod": 50}, {}) == ()
    assert shortfall(jobs, {}, {}, {}) == (Short("rod", 6, 0, 0),)


def test_what_nobody_sells_is_short_too_and_the_client_s_own_is_not() -> None:
    nothing = number(0, "each")
    unsold = Purchase(Line(ITEM, number(3, "each"), ()), nothing, nothing, nothing, (), priced=False)
    own = replace(unsold, line=Line(ITEM, number(3, "each"), (), own=True))
    assert shortfall((Buying((unsold,), (), ()),), {}, {}, {}) == (Short("rod", 3, 0, 0),)
    assert shortfall((Buying((own,), (), ()),), {}, {}, {}) == ()


def test_jobs_share_one_stock_and_what_is_coming() -> None:
    jobs = (wanted(3, stock=2), wanted(4))
    assert shortfall(jobs, {"rod": 2}, {"rod": 7}, {}) == ()
    assert shortfall(jobs, {"rod": 2}, {"rod": 4}, {}) == (Short("rod", 9, 2, 4),)
    (low,) = shortfall(jobs, {"rod": 2}, {"rod": 8}, {"rod": (3, 10)})
    assert (low.lacking, low.below) == (0, True)
