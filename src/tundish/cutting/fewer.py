"""A plan with a sheet fewer: one is taken apart, and its pieces find room in the others, a sheet or two filled anew at a time.

What is out of the plan grows dearer while it stays out, so that at last it comes in before what is easier to place: guided local
search, Voudouris and Tsang, European Journal of Operational Research 113 (1999), for the emptying of one sheet.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from typing import Final

from tundish.cutting.attempts import Plan
from tundish.cutting.boards import Layout, Nesting, Spot
from tundish.cutting.guillotine import Dice, Style, cut_up, laid

_LEAST: Final = 2
_TWO: Final = 0.6
"""How often two sheets are filled anew together."""
_WORSE: Final = 0.01
"""How much less may lie in a sheet filled anew, on the average: without that the search stays where it is."""
_SHAKES: Final = (0.1, 0.3)
_ASTRAY: Final = (0.0, 0.2, 0.5)
_CLOSEST: Final = 0.3
_DEARER: Final = 1.05
_EACH: Final = 50
"""Moves after which what is out grows dearer, and by how much."""

_Filled = tuple[int, list[Spot], list[Spot]]


def with_fewer(nest: Nesting, plan: Plan, moves: int, run: int = 0) -> Plan:
    """The plan without its emptiest sheet, if that can be done in so many moves; else the plan itself."""
    if len(plan) < _LEAST:
        return plan
    out = max(range(len(plan)), key=lambda place: _saved(nest, plan[place]))
    search = _Search(nest, [one for place, one in enumerate(plan) if place != out], plan[out], Dice(run))
    for _ in range(moves):
        if not search.out or nest.stop():
            break
        search.move()
    return plan if search.out else search.plan()


def _saved(nest: Nesting, layout: Layout) -> float:
    """Money that goes with a sheet, by the area of the pieces that would then have to lie elsewhere."""
    return nest.boards[layout.kind].cost / sum(nest.sizes[spot.size].area for spot in layout.spots)


class _Search:
    """Sheets, and the pieces that are out of them."""

    def __init__(self, nest: Nesting, plan: Sequence[Layout], apart: Layout, dice: Dice) -> None:
        self._nest, self._dice, self._moves = nest, dice, 0
        self._sheets: list[_Filled] = [(layout.kind, list(layout.spots), list(layout.rests)) for layout in plan]
        self.out = dict(Counter(spot.size for spot in apart.spots))
        areas = [float(size.area) for size in nest.sizes]
        longs = [max(size.ways[0]) for size in nest.sizes]
        sides = [sum(size.ways[0]) for size in nest.sizes]
        self._worth = areas
        self._keys = (list(areas), [float(long * long) for long in longs], [area * side for area, side in zip(areas, sides, strict=True)])

    def plan(self) -> Plan:
        """The sheets as they are filled."""
        return tuple(laid(self._nest, *sheet) for sheet in self._sheets if sheet[1])

    def move(self) -> None:
        """Fill a sheet or two anew from what lies there and what is out; kept unless much less lies there then."""
        places = self._places()
        pool = dict(self.out)
        before = 0.0
        for place in places:
            for spot in self._sheets[place][1]:
                pool[spot.size] = pool.get(spot.size, 0) + 1
                before += self._worth[spot.size]
        made: list[_Filled] = []
        for place in places:
            kind = self._sheets[place][0]
            made.append((kind, *cut_up(self._nest.boards[kind], pool, self._style(pool), self._dice)))
        after = sum(self._worth[spot.size] for _, spots, _ in made for spot in spots)
        worse = -_WORSE * math.log(1 - self._dice.throw()) / len(places)
        if after >= before * (1 - worse):
            for place, sheet in zip(places, made, strict=True):
                self._sheets[place] = sheet
            self.out = {size: count for size, count in pool.items() if count}
        self._moves += 1
        if self._moves % _EACH == 0:
            self._dearer()

    def _places(self) -> tuple[int, ...]:
        many = len(self._sheets)
        one = int(self._dice.throw() * many)
        if many == 1 or self._dice.throw() >= _TWO:
            return (one,)
        return one, (one + 1 + int(self._dice.throw() * (many - 1))) % many

    def _style(self, pool: dict[int, int]) -> Style:
        throw = self._dice.throw
        shake, keys = _SHAKES[int(throw() * len(_SHAKES))], self._keys[int(throw() * len(self._keys))]
        order = sorted([(-keys[size] * (1 + shake * (throw() - 0.5)), size) for size, count in pool.items() if count])
        sizes = self._nest.sizes
        return Style(tuple([(size, sizes[size].ways) for _, size in order]), throw() < _CLOSEST, _ASTRAY[int(throw() * len(_ASTRAY))])

    def _dearer(self) -> None:
        for size in self.out:
            for values in (self._worth, *self._keys):
                values[size] *= _DEARER
