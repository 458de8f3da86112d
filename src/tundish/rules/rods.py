"""What tie rods would make of another turn of the wall brackets or another depth of the pre-wall."""

from __future__ import annotations

import math
from collections.abc import Sequence

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure
from tundish.layout import settings
from tundish.layout.room import Placed, Room
from tundish.rules.rule import WayOut
from tundish.rules.ways import set_depth


def rods_for(one: Placed, book: Book) -> tuple[Item, ...]:
    """The tie rods that can be taken: that of the trader's own choice, or all of the catalogue."""
    own = one.tie_rod is not None and one.choice.tie_rod == one.tie_rod.code
    every = (one.tie_rod,) if own and one.tie_rod is not None else book.of_kind("tie rod")
    return tuple(each for each in every if each.has("reach_least") and each.has("reach_most"))


def reach_turned(one: Placed, turn: str) -> Figure:
    """Its reach with the brackets turned otherwise, square to a wall."""
    reach: Figure = one.figures["reach"]
    return reach + settings.bracket_seat(one.frame, one.choice.bracket) - settings.bracket_seat(one.frame, turn)


def some_serves(rods: Sequence[Item], reach: Figure) -> bool:
    """Whether one of the tie rods serves whatever the reach turns out to be."""
    return any(settings.serves_all(each, (reach,)) for each in rods)


def depth_that_serves(room: Room, reach: Figure, rods: Sequence[Item]) -> WayOut | None:
    """The pre-wall set to the nearest depth at which one tie rod serves all the rest that is open; None where there is none."""
    low = reach.low + room.depth.value - room.depth.low
    high = reach.high - (room.depth.high - room.depth.value)
    shifts = [_shift(each, low, high) for each in rods]
    nearest = min((each for each in shifts if each is not None), key=abs, default=None)
    if nearest is None or room.depth.value + nearest < 0:
        return None
    return set_depth(room, math.ceil(room.depth.value + nearest) if nearest > 0 else math.floor(room.depth.value + nearest))


def _shift(rod: Item, low: float, high: float) -> float | None:
    least, most = rod.sizes["reach_least"][0], rod.sizes["reach_most"][0]
    if math.ceil(high - low) > math.floor(most - least):
        return None
    return max(least - low, 0.0) or min(most - high, 0.0)
