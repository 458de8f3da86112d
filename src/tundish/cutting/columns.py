"""Bar plans of least cost: patterns made to price (column generation), then chosen in whole numbers, with a bound on the cost.

Method: Gilmore and Gomory, "A linear programming approach to the cutting-stock problem", Operations Research 9 (1961) and 11
(1963), with several bar lengths and a rack; the bound at any prices is Farley's, Operations Research 38 (1990).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from tundish.cutting.amounts import NEGLIGIBLE, attainable, step_of
from tundish.cutting.maximal import maximal_patterns
from tundish.cutting.optimiser import Choice, Prices, least_cost
from tundish.cutting.whole import Pattern, Task

if TYPE_CHECKING:
    import numpy as np

_ROUNDS: Final = 300
_MOST_PATTERNS: Final = 20_000
_TRIES: Final = ((200, 20, True), (200, 20, False), (600, 5, False))
_MOST_PIECES: Final = 150
_NEAR: Final = 200
_NODES: Final = 20


@dataclass(frozen=True, slots=True)
class Costed:
    """A plan and the least that any plan could cost, pence."""

    plan: tuple[Pattern, ...]
    cost: int
    bound: int

    @property
    def proven(self) -> bool:
        """No plan is cheaper."""
        return self.bound >= self.cost


def cheapest(task: Task, plan: Sequence[Pattern], pool: Sequence[Pattern]) -> Costed:
    """The cheapest plan found, from one that places every piece and a pool of patterns to choose among."""
    best = Costed(tuple(plan), task.cost(plan), attainable(task.load(), 0, task.cost(plan)))
    if best.proven or task.stop():
        return best
    every = maximal_patterns(task, _MOST_PATTERNS)
    if every is None:
        return _from_generated(task, best, list(dict.fromkeys([*plan, *pool])))
    return _from_every(task, best, every)


def _from_every(task: Task, best: Costed, every: Sequence[Pattern]) -> Costed:
    """Choose among all patterns there are: first the few that come nearest to paying, then as many as could be in a better plan."""
    prices = _choice(task, every).prices()
    best = replace(best, bound=max(best.bound, attainable(task.load(), prices.cost, best.cost)))
    order = sorted(range(len(every)), key=lambda one: prices.losses[one])
    for most, nodes, between in _TRIES:
        if best.proven or task.stop():
            break
        spare = best.cost - step_of(task.load().kinds) - prices.cost + NEGLIGIBLE * best.cost
        useful = [every[one] for one in order if prices.losses[one] <= spare]
        best = _chosen(task, best, useful[:most], (nodes, between), complete=len(useful) <= most)
    return best


def _from_generated(task: Task, best: Costed, patterns: list[Pattern]) -> Costed:
    """Choose among the patterns that the prices call for."""
    choice = _choice(task, patterns)
    best = replace(best, bound=max(best.bound, _generate(task, choice, patterns, best.cost)))
    if best.proven or sum(task.demand) > _MOST_PIECES or task.stop():
        return best
    losses = choice.prices().losses
    near = [patterns[one] for one in sorted(range(len(patterns)), key=losses.__getitem__)[:_NEAR]]
    for between in (True, False):
        if task.stop():
            break
        if not best.proven:
            best = _chosen(task, best, near, (_NODES, between), complete=False)
    return best


def _choice(task: Task, patterns: Sequence[Pattern]) -> Choice:
    choice = Choice(task.demand, task.rods, task.stop)
    for pattern in patterns:
        choice.add(pattern)
    return choice


def _chosen(task: Task, best: Costed, patterns: Sequence[Pattern], way: tuple[int, bool], *, complete: bool) -> Costed:
    """The cheaper of `best` and what can be made of the patterns in whole numbers; `complete` patterns also settle the bound."""
    amounts, least = _choice(task, patterns).whole(best.bound, best.cost - step_of(task.load().kinds), way[0], between=way[1])
    bound = max(best.bound, attainable(task.load(), least, best.cost)) if complete else best.bound
    plan = _trimmed(task, [pattern for pattern, amount in zip(patterns, amounts, strict=True) for _ in range(amount)])
    if not plan or task.cost(plan) >= best.cost:
        return replace(best, bound=bound)
    return Costed(tuple(plan), task.cost(plan), bound)


def _generate(task: Task, choice: Choice, patterns: list[Pattern], cost: int) -> int:
    """Add every pattern that pays for itself; gives the least cost that bars can have, early once it cannot rise any more."""
    least, bound, known = 0.0, 0, set(patterns)
    for _ in range(_ROUNDS):
        prices = choice.prices()
        found, worth = _priced(task, prices)
        farley = least_cost(prices, task.demand, task.rods, worth)
        if farley > least:
            least, bound = farley, attainable(task.load(), farley, cost)
        made = [pattern for pattern in found if pattern not in known]
        if bound >= cost or not made or task.stop():
            break
        for pattern in made:
            choice.add(pattern)
        patterns += made
        known.update(made)
    return bound


def _priced(task: Task, prices: Prices) -> tuple[list[Pattern], list[float]]:
    """Patterns that save money at these prices, and what each kind of bar is worth at most: one bounded knapsack does for all."""
    import numpy as np

    longest = max(rod.room for rod in task.rods)
    value: np.ndarray[Any, np.dtype[np.float64]] = np.zeros(longest + 1)
    steps: list[tuple[int, int, Any]] = []
    for place, width in enumerate(task.widths):
        more, step, price = min(task.demand[place], longest // width), 1, prices.pieces[place]
        while more > 0 and price > 0:
            taken = min(step, more)
            more -= taken
            step *= 2
            offered = value[: longest + 1 - taken * width] + taken * price
            better = offered > value[taken * width :] + 1e-12
            np.copyto(value[taken * width :], offered, where=better)
            steps.append((place, taken, better))
    savings = [float(value[rod.room]) - rod.cost + dual for rod, dual in zip(task.rods, prices.kinds, strict=True)]
    made = [Pattern(kind, _walk_back(task, steps, task.rods[kind].room)) for kind, saving in enumerate(savings) if saving > NEGLIGIBLE]
    return made, [float(value[rod.room]) for rod in task.rods]


def _walk_back(task: Task, steps: list[tuple[int, int, Any]], room: int) -> tuple[int, ...]:
    counts = [0] * len(task.widths)
    for place, taken, better in reversed(steps):
        rest = room - taken * task.widths[place]
        if rest >= 0 and better[rest]:
            counts[place] += taken
            room = rest
    return tuple(counts)


def _trimmed(task: Task, plan: Sequence[Pattern]) -> list[Pattern]:
    """The plan without the pieces that it cuts over what was asked."""
    left = list(task.demand)
    exact = []
    for pattern in plan:
        counts = tuple(min(have, count) for have, count in zip(left, pattern.counts, strict=True))
        left = [have - count for have, count in zip(left, counts, strict=True)]
        if any(counts):
            exact.append(Pattern(pattern.kind, counts))
    return exact
