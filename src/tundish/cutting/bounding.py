"""What any sheet plan must cost, and sheets that pay: all ways of cutting a sheet are priced in turn (column generation)."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from tundish.cutting.amounts import NEGLIGIBLE, attainable
from tundish.cutting.boards import Layout, Nesting
from tundish.cutting.lattice import Lattice, coarse, fine, in_full
from tundish.cutting.optimiser import Choice, Prices, least_cost
from tundish.cutting.whole import Pattern

if TYPE_CHECKING:
    from tundish.cutting.lattice import Values

_FEW_POINTS: Final = 30_000
_MOST_POINTS: Final = 250_000
"""Points up to which every one is looked at from the start, and at all."""
_STEADY: Final = 0.6
_ROUGH: Final = 110
_WARM: Final = 200
_LOOKED: Final = 10
_WORTH_IT: Final = 0.998
"""Steps to the longest sheet to begin in, how often at most, and how much cheaper so many rounds must make it to go on."""
_NO_RISE: Final = 20
"""Rounds without a better bound after which none is to be expected."""


def searched(nest: Nesting, cost: int, pool: Sequence[Layout], rounds: Sequence[int]) -> Iterator[Bounded]:
    """Bounds on the cost of every plan, each no lower than the one before and no higher than `cost`, from prices that settle."""
    search = _Search(nest, cost, pool)
    if len(rounds) > 1 and not fine(nest, _FEW_POINTS):
        search.warm(_Rough(nest))
        yield Bounded(search.bound, tuple(search.made.values()), search.taken())
    for pricer in _pricers(nest):
        for most in rounds:
            settled = search.settle(pricer, most)
            yield Bounded(search.bound, tuple(search.made.values()), search.taken())
            if settled or search.bound >= cost or nest.stop():
                break


@dataclass(frozen=True, slots=True)
class Bounded:
    """The least that any plan costs, pence, and the sheets that were made on the way."""

    least: int
    made: tuple[Layout, ...]
    taken: tuple[tuple[float, Layout], ...]
    """How often each sheet is cut in fractions, the most often first."""


class _Search:
    """Prices that settle; to steady them, each round looks between the last prices and those of the best bound."""

    def __init__(self, nest: Nesting, cost: int, pool: Sequence[Layout]) -> None:
        self._nest, self._cost = nest, cost
        self._choice = Choice(nest.demand, nest.boards, nest.stop)
        self._columns = list(pool)
        for layout in pool:
            self._choice.add(Pattern(layout.kind, layout.counts))
        self._steady: Prices | None = None
        self._best = 0.0
        self.bound = attainable(nest.load(), 0, cost)
        self.made: dict[tuple[int, tuple[int, ...]], Layout] = {}

    def warm(self, rough: _Rough) -> None:
        """Sheets that pay, found in large steps, for as long as they bring the cost down by more than a little."""
        before = math.inf
        for place in range(_WARM):
            now = self._choice.prices()
            if place % _LOOKED == 0:
                if now.cost > before * _WORTH_IT or self._nest.stop():
                    break
                before = now.cost
            if not self._added(rough.priced(now)):
                break

    def settle(self, pricer: _Pricer, rounds: int) -> bool:
        """Price until nothing pays, the bound stops rising, or it can rise no more: whether there is nothing more to find."""
        since = 0
        for _ in range(rounds):
            if self.bound >= self._cost or since > _NO_RISE or self._nest.stop():
                return True
            now = self._choice.prices()
            since += 1
            for prices in (_between(now, self._steady), now) if self._steady else (now,):
                new, rose = self._round(pricer, prices)
                since = 0 if rose else since
                if new:
                    break
            else:
                return True
        return False

    def taken(self) -> tuple[tuple[float, Layout], ...]:
        """The cheapest choice in fractions."""
        amounts = self._choice.prices().amounts
        taken = [(amount, layout) for amount, layout in zip(amounts, self._columns, strict=True) if amount > NEGLIGIBLE]
        return tuple(sorted(taken, key=lambda one: -one[0]))

    def _round(self, pricer: _Pricer, prices: Prices) -> tuple[bool, bool]:
        """Whether sheets were found that were not known, and whether the bound rose."""
        new = self._added(pricer.priced(prices))
        farley = least_cost(prices, self._nest.demand, self._nest.boards, pricer.worth)
        rose = farley > self._best + NEGLIGIBLE * self._cost
        if rose:
            self._best, self._steady = farley, prices
            self.bound = max(self.bound, attainable(self._nest.load(), farley, self._cost))
        return new, rose

    def _added(self, found: Iterator[Layout]) -> bool:
        """Whether any of these sheets was not known."""
        before = len(self.made)
        for layout in found:
            key = (layout.kind, layout.counts)
            if key not in self.made:
                self.made[key] = layout
                self._columns.append(layout)
                self._choice.add(Pattern(*key))
        return len(self.made) > before


def _between(now: Prices, steady: Prices) -> Prices:
    def mixed(one: Sequence[float], other: Sequence[float]) -> tuple[float, ...]:
        return tuple((1 - _STEADY) * here + _STEADY * there for here, there in zip(one, other, strict=True))

    return Prices(now.cost, mixed(now.pieces, steady.pieces), mixed(now.kinds, steady.kinds), now.losses)


def _pricers(nest: Nesting) -> Iterator[_Pricer]:
    """In large steps first, then exactly where there are not too many points."""
    if not fine(nest, _FEW_POINTS):
        yield _Pricer(nest, exact=False)
    if fine(nest, _MOST_POINTS):
        yield _Pricer(nest, exact=True)


class _Rough:
    """Sheets that save money at given prices, in steps so large that a look takes no time; they prove nothing."""

    def __init__(self, nest: Nesting) -> None:
        rough, self._step = coarse(nest, over=True, steps=_ROUGH)
        self._nest, self._lattice = nest, Lattice(rough)

    def priced(self, prices: Prices) -> Iterator[Layout]:
        """The best sheet of each kind, where it saves anything."""
        values = self._lattice.values(prices.pieces)
        yield from _paying(self._nest, self._lattice, (values, self._step), prices)


class _Pricer:
    """Sheets that save money at given prices; `worth` is what each kind is worth at most, as last priced."""

    def __init__(self, nest: Nesting, *, exact: bool) -> None:
        self._nest = nest
        self.worth: list[float] = []
        self._step = 1
        self._sure = self._safe = Lattice(nest if exact else coarse(nest, over=False)[0])
        if not exact:
            rough, self._step = coarse(nest, over=True)
            self._safe = Lattice(rough)

    def priced(self, prices: Prices) -> Iterator[Layout]:
        """The best sheet of each kind, where it saves anything."""
        values = self._sure.values(prices.pieces)
        self.worth = self._sure.worths(values)
        if self._safe is not self._sure:
            values = self._safe.values(prices.pieces)
        yield from _paying(self._nest, self._safe, (values, self._step), prices)


def _paying(nest: Nesting, lattice: Lattice, priced: tuple[Values, int], prices: Prices) -> Iterator[Layout]:
    values, step = priced
    for kind, (worth, board) in enumerate(zip(lattice.worths(values), nest.boards, strict=True)):
        if worth - board.cost + prices.kinds[kind] > NEGLIGIBLE * (1 + board.cost):
            layout = lattice.layout(values, prices.pieces, kind)
            yield layout if step == 1 else in_full(nest, lattice.nest, layout, step)
