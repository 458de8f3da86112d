"""The exact search: how many packs of every offer, in whole numbers, for least money, then fewest orders, then soonest.

Single-threaded and without a clock, so that the same question always has the same answer.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from tundish.catalogue.item import Offer, Supplier
from tundish.procurement.purchase import Want
from tundish.procurement.split import Tier, lead, tiers

if TYPE_CHECKING:
    import highspy

NODES: Final = 20_000
_PENNY: Final = 0.005
"""Half a hundredth of what a price is printed to: what an earlier aim may lose to rounding."""


@dataclass(slots=True)
class Model:
    """Columns from nought up to their bounds, and rows over them; highspy is only met in `_solve`."""

    upper: list[float] = field(default_factory=list)
    whole: list[bool] = field(default_factory=list)
    rows: list[tuple[float, float, dict[int, float]]] = field(default_factory=list)

    def column(self, upper: float, *, whole: bool = True) -> int:
        """One more unknown, from nought up."""
        self.upper.append(upper)
        self.whole.append(whole)
        return len(self.upper) - 1

    def row(self, low: float, high: float, terms: Mapping[int, float]) -> None:
        """One more condition."""
        self.rows.append((low, high, dict(terms)))


@dataclass(frozen=True, slots=True)
class Taken:
    """The unknowns of one tier of one offer: packs, and whether it is taken at all."""

    offer: Offer
    tier: Tier
    packs: int
    used: int


def choose_packs(wants: Sequence[Want], suppliers: Sequence[Supplier]) -> tuple[tuple[tuple[int, ...], ...] | None, bool]:
    """Packs of each offer of each want, or None where nothing was found; and whether nothing better can exist."""
    model = Model()
    by_key = {one.key: one for one in suppliers}
    asked = {one.key: model.column(1) for one in suppliers}
    taken = [[[_tier(model, offer, tier, asked) for tier in tiers(want, offer)] for offer in want.offers] for want in wants]
    for want, offers in zip(wants, taken, strict=True):
        if offers:
            model.row(want.amount - 1e-6, _INFINITE, {one.packs: want.holds(one.offer) for few in offers for one in few})
        for few in offers:
            model.row(0, 1, {one.used: 1.0 for one in few})
    every = [one for offers in taken for few in offers for one in few]
    money = _money(model, suppliers, asked, every)
    latest = model.column(_INFINITE, whole=False)
    for one in every:
        model.row(0, _INFINITE, {latest: 1.0, one.used: -float(lead(one.offer, by_key))})
    values, proven = _in_turn(model, (money, dict.fromkeys(asked.values(), 1.0), {latest: 1.0}))
    if values is None:
        return None, False
    return tuple(tuple(sum(round(values[one.packs]) for one in few) for few in offers) for offers in taken), proven


_INFINITE: Final = float("inf")


def _tier(model: Model, offer: Offer, tier: Tier, asked: Mapping[str, int]) -> Taken:
    packs, used = model.column(tier.high), model.column(1)
    model.row(-_INFINITE, 0, {packs: 1.0, used: -float(tier.high)})
    model.row(0, _INFINITE, {packs: 1.0, used: -float(tier.low)})
    model.row(-_INFINITE, 0, {used: 1.0, asked[offer.supplier]: -1.0})
    return Taken(offer, tier, packs, used)


def _money(model: Model, suppliers: Sequence[Supplier], asked: Mapping[str, int], every: Sequence[Taken]) -> dict[int, float]:
    """Pence of goods and carriage; carriage is free where the goods reach what the supplier asks for."""
    money = {one.packs: one.tier.pence for one in every}
    for supplier in suppliers:
        goods = {one.packs: one.tier.pence for one in every if one.offer.supplier == supplier.key}
        if not supplier.carriage or not supplier.free_above or not goods:
            continue
        free = model.column(1)
        model.row(0, _INFINITE, {**goods, free: -float(supplier.free_above * 100)})
        model.row(-_INFINITE, 0, {free: 1.0, asked[supplier.key]: -1.0})
        money[asked[supplier.key]] = float(supplier.carriage * 100)
        money[free] = -float(supplier.carriage * 100)
    return money


def _in_turn(model: Model, aims: Sequence[Mapping[int, float]]) -> tuple[list[float] | None, bool]:
    """The values that serve the first aim best, among those the second, and so on."""
    found: list[float] | None = None
    proven = True
    for aim in aims:
        values, done = _solve(model, aim)
        proven = proven and done
        if values is None:
            return found, False
        found = values
        model.row(-_INFINITE, sum(weight * values[place] for place, weight in aim.items()) + _PENNY, aim)
    return found, proven


def _solve(model: Model, aim: Mapping[int, float]) -> tuple[list[float] | None, bool]:
    import highspy
    import numpy as np

    solver = _solver()
    count = len(model.upper)
    solver.addVars(count, np.zeros(count), np.array(model.upper))
    places = np.arange(count, dtype=np.int32)
    solver.changeColsCost(count, places, np.array([aim.get(place, 0.0) for place in range(count)]))
    solver.changeColsIntegrality(count, places, np.array(model.whole, np.uint8))
    for low, high, terms in model.rows:
        solver.addRow(low, high, len(terms), np.array(list(terms), np.int32), np.array(list(terms.values()), np.float64))
    solver.run()
    found = solver.getInfo().primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    done = solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return (list(solver.getSolution().col_value) if found else None), done


def _solver() -> highspy.Highs:
    from tundish.cutting.optimiser import new_solver

    solver = new_solver()
    for option, value in (("mip_rel_gap", 0.0), ("mip_abs_gap", 1e-4), ("mip_max_nodes", NODES)):
        solver.setOptionValue(option, value)
    return solver
