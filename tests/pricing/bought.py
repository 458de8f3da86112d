"""Buying for tests: a thing each, at ten pounds, at a price of a day."""

from __future__ import annotations

from decimal import Decimal

from tundish.catalogue.item import Item, Offer
from tundish.figure import number
from tundish.procurement.purchase import Buying, Pick, Purchase
from tundish.rules.rule import Need
from tundish.takeoff.line import Line


def bought(*days: tuple[str, str]) -> Buying:
    """Thing 1, Thing 2… each bought once, at prices from and to these days."""
    return Buying(tuple(_thing(place + 1, *each) for place, each in enumerate(days)), (), ())


def _thing(place: int, valid_from: str, valid_to: str) -> Purchase:
    one, nothing = number(1, "each"), number(0, "each")
    item = Item(f"thing-{place}", f"Thing {place}", "sundry", "Sundries", "each", {})
    line = Line(item, one, (Need(one, "first fix", "work", item=item.code),))
    pick = Pick(Offer(item.code, "one", "1", 1, Decimal(10), valid_from, valid_to=valid_to), 1)
    return Purchase(line, nothing, nothing, nothing, (pick,))
