"""Cut plans for sheets: pieces laid by cuts from edge to edge, offcuts first, then the cheapest new sheets.

Every piece and sheet is grown by the saw cut, so that laying them side by side needs no further thought of it. Rectangles that are
still free are filled one at a time; each piece laid splits its rectangle in two by a cut right across it, so that any plan can be cut.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from tundish.cutting.plan import Effort, Piece, Place, Rect, Sheet, SheetCut, SheetPlan, check_saw

GRACE: Final = 1e-6
SPLITS: Final = ("longer", "shorter", "across", "along")
TRIES: Final = 400
"""Orders of the pieces that BEST tries beyond the usual ones."""


@dataclass(frozen=True, slots=True)
class _Size:
    """A piece as it is laid: its place in the list, length and width with the saw cut added."""

    piece: int
    length: float
    width: float
    turn: bool


@dataclass(frozen=True, slots=True)
class _Laid:
    """One sheet filled."""

    sheet: int
    places: tuple[Place, ...]
    rests: tuple[Rect, ...]


def plan_sheets(
    pieces: Sequence[Piece], stock: Sequence[Sheet], kerf: float = 0.0, trim: float = 0.0, effort: Effort = Effort.QUICK
) -> SheetPlan:
    """The cheapest plan found; pieces that fit no sheet, or for which the stock runs out, are `unplaced`."""
    check_saw(kerf, trim)
    saw = _Saw(tuple(stock), kerf, trim)
    sizes = tuple(_Size(n, each.length + kerf, each.width + kerf, each.turn) for n, each in enumerate(pieces) for _ in range(each.count))
    best: tuple[tuple[int, float, float], list[_Laid], list[_Size]] | None = None
    for order, split in _ways(sizes, effort):
        laid, left = saw.fill(order, split)
        score = (len(left), sum(stock[each.sheet].cost_pence for each in laid), -_worth(laid))
        if best is None or score < best[0]:
            best = (score, laid, left)
    _, laid, left = best or ((0, 0, 0.0), [], [])
    cost = sum(stock[each.sheet].cost_pence for each in laid)
    bound = min(_bound(pieces, stock, left), cost)
    cuts = tuple(SheetCut(each.sheet, each.places, each.rests) for each in laid)
    return SheetPlan(
        tuple(stock), tuple(pieces), cuts, cost, bound, not left and bound == cost, tuple(each.piece for each in left), kerf, trim
    )


@dataclass(frozen=True, slots=True)
class _Saw:
    stock: tuple[Sheet, ...]
    kerf: float
    trim: float

    def fill(self, order: list[_Size], split: str) -> tuple[list[_Laid], list[_Size]]:
        """Fill the rack from its smallest piece up, then new sheets, each time the one that gives most for its money."""
        laid: list[_Laid] = []
        left = list(order)
        counts = [each.count for each in self.stock]
        rack = sorted((n for n, each in enumerate(self.stock) if each.offcut), key=lambda n: self.stock[n].length * self.stock[n].width)
        for sheet in rack:
            for _ in range(counts[sheet] or 0):
                one, rest = self._one(sheet, left, split)
                if one.places:
                    laid.append(one)
                    left = rest
        while left:
            found = self._next(left, split, counts)
            if found is None:
                break
            one, left = found
            laid.append(one)
            counts[one.sheet] = None if counts[one.sheet] is None else (counts[one.sheet] or 0) - 1
        return laid, left

    def _next(self, left: list[_Size], split: str, counts: list[int | None]) -> tuple[_Laid, list[_Size]] | None:
        best: tuple[tuple[float, float], _Laid, list[_Size]] | None = None
        for sheet, size in enumerate(self.stock):
            if size.offcut or counts[sheet] == 0:
                continue
            one, rest = self._one(sheet, left, split)
            area = sum(place.length * place.width for place in one.places)
            if not area:
                continue
            # A sheet that takes all that is left need not be full: then only its price counts.
            score = (0.0, float(size.cost_pence)) if not rest else (1.0, size.cost_pence / area)
            if best is None or score < best[0]:
                best = (score, one, rest)
        return None if best is None else best[1:]

    def _one(self, sheet: int, order: list[_Size], split: str) -> tuple[_Laid, list[_Size]]:
        size, trim, kerf = self.stock[sheet], self.trim, self.kerf
        free = [Rect(trim, trim, size.length - 2 * trim + kerf, size.width - 2 * trim + kerf)]
        places: list[Place] = []
        rests: list[Rect] = []
        left = list(order)
        while free:
            free.sort(key=lambda rect: -rect.length * rect.width)
            room = free.pop()
            found = _fitting(left, room)
            if found is None:
                rests.append(room)
                continue
            place, turned = found
            one = left.pop(place)
            length, width = (one.width, one.length) if turned else (one.length, one.width)
            places.append(Place(one.piece, room.x, room.y, length - kerf, width - kerf, turned))
            free += [each for each in _split(room, length, width, split) if min(each.length, each.width) > kerf + GRACE]
        kept = tuple(Rect(each.x, each.y, each.length - kerf, each.width - kerf) for each in rests)
        return _Laid(sheet, tuple(places), kept), left


def _ways(sizes: tuple[_Size, ...], effort: Effort) -> Iterator[tuple[list[_Size], str]]:
    keys: tuple[Callable[[_Size], tuple[float, ...]], ...] = (
        lambda each: (-each.length * each.width, -each.length),
        lambda each: (-max(each.length, each.width), -min(each.length, each.width)),
        lambda each: (-min(each.length, each.width), -max(each.length, each.width)),
        lambda each: (-each.length - each.width, -each.length),
        lambda each: (-each.width, -each.length),
        lambda each: (-each.length, -each.width),
    )
    orders = [sorted(sorted(sizes, key=_place), key=key) for key in keys]
    yield from product(orders[:2], ("longer", "across", "along"))
    if effort is Effort.BEST and sizes:
        yield from product(orders, SPLITS)
        for turn in range(TRIES):
            order = list(orders[turn % len(orders)])
            # A fixed sequence of exchanges in place of chance: the same pieces always give the same plan.
            for step in range(1 + turn % 5):
                a, b = (turn * 7 + step * 13) % len(order), (turn * 11 + step * 17 + 3) % len(order)
                order[a], order[b] = order[b], order[a]
            yield order, SPLITS[turn % len(SPLITS)]


def _place(one: _Size) -> int:
    return one.piece


def _fitting(left: list[_Size], room: Rect) -> tuple[int, bool] | None:
    for place, one in enumerate(left):
        flat = one.length <= room.length + GRACE and one.width <= room.width + GRACE
        turned = one.turn and one.width <= room.length + GRACE and one.length <= room.width + GRACE
        if flat and turned:
            return place, min(room.length - one.width, room.width - one.length) < min(
                room.length - one.length, room.width - one.width
            ) - GRACE
        if flat or turned:
            return place, not flat
    return None


def _split(room: Rect, length: float, width: float, split: str) -> tuple[Rect, Rect]:
    """The two rectangles that are left beside and above a piece, by one cut right across the room."""
    across, up = room.length - length, room.width - width
    upright = {
        "longer": across * room.width >= up * room.length,
        "shorter": across * room.width < up * room.length,
        "across": False,
        "along": True,
    }
    if upright[split]:
        return Rect(room.x + length, room.y, across, room.width), Rect(room.x, room.y + width, length, up)
    return Rect(room.x + length, room.y, across, width), Rect(room.x, room.y + width, room.length, up)


def _worth(laid: list[_Laid]) -> float:
    """One large remainder is worth more than two small ones."""
    return math.fsum(math.pow(rest.length * rest.width / 1e6, 1.3) for each in laid for rest in each.rests)


def _bound(pieces: Sequence[Piece], stock: Sequence[Sheet], left: list[_Size]) -> int:
    """No plan can cost less: the area that the rack cannot hold, at the least price of new board by area, in whole sheets."""
    new = [each for each in stock if not each.offcut and each.cost_pence]
    if not new:
        return 0
    out = [each.piece for each in left]
    area = sum(each.length * each.width * each.count for each in pieces) - sum(pieces[n].length * pieces[n].width for n in out)
    area -= sum(each.length * each.width * (each.count or 0) for each in stock if each.offcut)
    if area <= GRACE:
        return 0
    by_area = area * min(each.cost_pence / (each.length * each.width) for each in new)
    costs = sorted({each.cost_pence for each in new})
    return _attainable(by_area, costs)


def _attainable(least: float, costs: list[int]) -> int:
    """The least sum of whole sheets' prices that is not under `least`."""
    top = math.ceil(least - GRACE) + costs[0]
    reach = {0}
    frontier = {0}
    while frontier:
        frontier = {have + cost for have in frontier for cost in costs if have + cost <= top} - reach
        reach |= frontier
    return min(have for have in reach if have >= least - GRACE)
