"""The one door to the optimiser: patterns to choose among, as a linear programme and in whole numbers.

Single-threaded and without a clock, so that the same question always has the same answer.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Final, Protocol

from tundish.cutting.until import Stop, never
from tundish.cutting.whole import Pattern

if TYPE_CHECKING:
    import highspy

_PRIMAL_SIMPLEX: Final = 4
_NOUGHT: Final = 1e-7


class Stock(Protocol):
    """What the optimiser asks of a kind of stock."""

    @property
    def cost(self) -> int:
        """Pence."""

    @property
    def count(self) -> int | None:
        """How many there are; None is no limit."""


@dataclass(frozen=True, slots=True)
class Prices:
    """Answer of the linear programme: the least cost, pence, and what it turns on."""

    cost: float
    pieces: tuple[float, ...]
    """What one more of each piece would cost."""
    kinds: tuple[float, ...]
    """What one more of each limited kind would save, below nought."""
    losses: tuple[float, ...]
    """What taking each pattern once would lose."""
    amounts: tuple[float, ...] = ()
    """How often each pattern is taken, in fractions."""


class Choice:
    """Patterns chosen in fractions, so that every piece is cut at least as often as asked; patterns may be added."""

    def __init__(self, demand: Sequence[int], stock: Sequence[Stock], stop: Stop = never) -> None:
        import numpy as np

        self._stop = stop
        self._pieces = len(demand)
        self._stock = stock
        self._limits = [kind for kind, one in enumerate(stock) if one.count is not None]
        self._rows = {kind: self._pieces + row for row, kind in enumerate(self._limits)}
        self._solver = new_solver()
        self._solver.setOptionValue("presolve", "off")
        self._solver.setOptionValue("simplex_strategy", _PRIMAL_SIMPLEX)
        none, nothing = np.array([], np.int32), np.array([], np.float64)
        for count in demand:
            self._solver.addRow(float(count), np.inf, 0, none, nothing)
        for kind in self._limits:
            self._solver.addRow(-np.inf, float(stock[kind].count or 0), 0, none, nothing)

    def add(self, pattern: Pattern) -> None:
        """One more pattern to choose from."""
        import numpy as np

        places = [place for place, count in enumerate(pattern.counts) if count]
        values = [float(pattern.counts[place]) for place in places]
        if pattern.kind in self._rows:
            places.append(self._rows[pattern.kind])
            values.append(1.0)
        cost = float(self._stock[pattern.kind].cost)
        self._solver.addCol(cost, 0.0, np.inf, len(places), np.array(places, np.int32), np.array(values, np.float64))

    def prices(self) -> Prices:
        """The cheapest choice among the patterns added so far."""
        self._solver.run()
        answer = self._solver.getSolution()
        duals = list(answer.row_dual)
        kinds = [0.0] * len(self._stock)
        for kind, row in self._rows.items():
            kinds[kind] = min(0.0, duals[row])
        pieces = tuple(dual if dual > _NOUGHT else 0.0 for dual in duals[: self._pieces])
        return Prices(
            self._solver.getInfo().objective_function_value, pieces, tuple(kinds), tuple(answer.col_dual), tuple(answer.col_value)
        )

    def whole(self, least: int, most: int, nodes: int, *, between: bool) -> tuple[tuple[int, ...], float]:
        """How many of each pattern in whole numbers, as cheap as found, at a cost from `least` to `most`; and the least proved.

        All nought if there is no such choice, or none was found within `nodes` branches; `between` makes the range a condition of
        the search, which settles some questions at once and others later than without.
        """
        import highspy
        import numpy as np

        columns = self._solver.getNumCol()
        places = np.arange(columns, dtype=np.int32)
        solver = new_solver(self._stop)
        solver.passModel(self._solver.getLp())
        solver.changeColsIntegrality(columns, places, np.ones(columns, np.uint8))
        if between:
            costs = np.array(solver.getLp().col_cost_, np.float64)
            solver.addRow(float(least), float(most), columns, places, costs)
        for option, value in (("mip_max_nodes", nodes), ("mip_rel_gap", 0.0), ("mip_abs_gap", 0.5), ("objective_target", least + 0.5)):
            solver.setOptionValue(option, value)
        solver.run()
        if solver.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
            return (0,) * columns, most + 0.5
        info = solver.getInfo()
        found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        values = tuple(round(value) for value in solver.getSolution().col_value)
        return (values if found else (0,) * columns), min(max(0.0, info.mip_dual_bound), most + 0.5)


def least_cost(prices: Prices, demand: Sequence[int], stock: Sequence[Stock], worth: Sequence[float]) -> float:
    """A bound that holds at any prices, from what each kind of stock is worth at most: Farley, Operations Research 38 (1990).

    The prices are lowered until no unlimited kind is worth more than it costs.
    """
    kinds = tuple(zip(worth, stock, strict=True))
    share = min([1.0] + [kind.cost / value for value, kind in kinds if kind.count is None and value > 0])
    total = sum(price * count for price, count in zip(prices.pieces, demand, strict=True))
    return share * total - sum((kind.count or 0) * max(0.0, share * value - kind.cost) for value, kind in kinds)


def new_solver(stop: Stop = never) -> highspy.Highs:
    """A silent, single-threaded solver that gives up when it is told to stop."""
    import highspy

    _swallow_banner()
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    if stop is not never:
        solver.cbMipInterrupt += lambda event: event.interrupt(interrupt_value=stop())
        solver.cbSimplexInterrupt += lambda event: event.interrupt(interrupt_value=stop())
    return solver


@cache
def _swallow_banner() -> None:
    """The first solver of a process prints a banner on standard output, whatever its options: it is kept from the user."""
    import highspy

    try:
        kept = os.dup(1)
    except OSError:  # a windowed program may have no standard output
        return
    try:
        with Path(os.devnull).open("wb") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            highspy.Highs()  # type: ignore[no-untyped-call]
    finally:
        os.dup2(kept, 1)
        os.close(kept)
