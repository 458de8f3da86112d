"""The cheapest chain of parts that joins two open ends: a shortest path whose steps are parts with two ends.

Two ends join when one is male and the other female, of the same system and nominal size; a compression waste takes push-fit and
solvent pipe alike, whose real diameters differ. Push-fit, solvent and continental sizes of one name do not join one another, nor a
parallel thread (ISO 228, G) a taper one (ISO 7, R).
"""

from __future__ import annotations

import heapq
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import lru_cache
from math import inf
from typing import Final

from tundish.catalogue.item import End, Item
from tundish.record import record

Key = tuple[str, str, str]
"""What of an end decides whether it joins: system, nominal size, gender."""

MOST_PARTS: Final = 8
"""A chain of more parts is not a joint."""


@dataclass(frozen=True, slots=True)
class Step:
    """A part put into a chain by one end, with the other left open. Millimetres and degrees; nought where its sheet is silent."""

    item: Item
    out: Key
    turn: float
    drop: float
    long: float


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a chain must do besides joining: turn by so many degrees, drop at least so far, be no longer than there is space."""

    turn: float | None = None
    drop: float = 0.0
    space: float = inf


@dataclass(frozen=True, slots=True)
class Chain:
    """The parts from the first end to the other, in order; what they cost beyond what lies in kits and stock."""

    parts: tuple[Item, ...]
    cost: Decimal


Fittings = Mapping[Key, tuple[Step, ...]]
"""By the end that a part goes in with: every part with two ends, either way round."""

ANYTHING: Final = Wanted()


def joins(one: End, other: End) -> bool:
    """Whether the two ends go into one another."""
    return _key(other) in _mates(_key(one))


def fittings(parts: Iterable[Item]) -> Fittings:
    """The parts that a chain may be made of, ready to be searched."""
    made: defaultdict[Key, list[Step]] = defaultdict(list)
    for item in parts:
        if len(item.ends) != 2:  # noqa: PLR2004 - a tee or a cap does not carry a chain on
            continue
        first, second = (_key(end) for end in item.ends)
        sizes = tuple(item.sizes.get(name, (0.0, ""))[0] for name in ("angle", "drop", "built_length"))
        made[first].append(Step(item, second, *sizes))
        if second != first:
            made[second].append(Step(item, first, *sizes))
    return {key: tuple(steps) for key, steps in made.items()}


def chain(
    ends: tuple[End, End],
    parts: Fittings,
    price: Callable[[Item], Decimal | None],
    free: Mapping[str, int] | None = None,
    wanted: Wanted = ANYTHING,
) -> Chain | None:
    """The cheapest chain between two ends, then the one of fewest parts; empty where they join as they are; None where none does.

    `price` is what one more of a part costs, None where it cannot be had; of those in `free` (kits and stock) so many cost nothing.
    """
    goal = frozenset(_mates(_key(ends[1])))
    search = _Search(parts, price, free or {}, wanted, goal)
    search.measure(_key(ends[1]))
    return search.run(_key(ends[0]))


@record
class _Label:
    """A chain begun: the end it leaves open, what it did so far, and its parts by code."""

    open: Key
    cost: Decimal
    turn: float
    drop: float
    long: float
    parts: tuple[Item, ...]
    taken: tuple[str, ...]
    """What of the free parts it took, sorted."""

    def beats(self, other: _Label) -> bool:
        """Whether nothing that can still be done with the other could not be done at least as well with this one."""
        return (
            self.cost <= other.cost and len(self.parts) <= len(other.parts) and self.long <= other.long and _within(self.taken, other.taken)
        )


@dataclass(slots=True)
class _Search:
    parts: Fittings
    price: Callable[[Item], Decimal | None]
    free: Mapping[str, int]
    wanted: Wanted
    goal: frozenset[Key]
    far: dict[Key, Decimal] = field(default_factory=dict)
    """The least that a chain from the other end costs until it leaves this end open, were there no turn, drop or space to meet."""
    kept: defaultdict[tuple[Key, float, float], list[_Label]] = field(default_factory=lambda: defaultdict(list))

    def measure(self, end: Key) -> None:
        """Find `far` for every end that can be reached: what a chain still costs at least leads the search straight to the goal."""
        heap = [(_NOTHING, end)]
        while heap:
            cost, here = heapq.heappop(heap)
            if here in self.far:
                continue
            self.far[here] = cost
            for mate in _mates(here):
                for step in self.parts.get(mate, ()):
                    if step.out not in self.far:
                        least = _NOTHING if step.item.code in self.free else self.price(step.item)
                        if least is not None:
                            heapq.heappush(heap, (cost + least, step.out))

    def run(self, start: Key) -> Chain | None:
        if self._ahead(start) is None:
            return None
        order = 0
        first = _Label(start, _NOTHING, 0.0, 0.0, 0.0, (), ())
        heap: list[tuple[Decimal, int, float, int, _Label]] = [(first.cost, 0, 0.0, order, first)]
        while heap:
            label = heapq.heappop(heap)[-1]
            if self._done(label):
                return Chain(label.parts, label.cost)
            if len(label.parts) == MOST_PARTS:
                continue
            for mate in _mates(label.open):
                for step in self.parts.get(mate, ()):
                    ahead = self._ahead(step.out)
                    longer = None if ahead is None else self._longer(label, step)
                    if longer is not None and ahead is not None and not self._beaten(longer):
                        order += 1
                        heapq.heappush(heap, (longer.cost + ahead, len(longer.parts), longer.long, order, longer))
        return None

    def _ahead(self, here: Key) -> Decimal | None:
        """The least that is still to pay from an open end, None where nothing leads on."""
        return min((self.far[mate] for mate in _mates(here) if mate in self.far), default=None)

    def _done(self, label: _Label) -> bool:
        turned = self.wanted.turn is None or abs(label.turn - self.wanted.turn) < _DEGREE
        return label.open in self.goal and turned and label.drop >= self.wanted.drop

    def _beaten(self, label: _Label) -> bool:
        """Whether a chain kept before does as well; else this one is kept. What is turned or dropped beyond need does not tell apart."""
        turn = 0.0 if self.wanted.turn is None else label.turn
        rivals = self.kept[label.open, turn, min(label.drop, self.wanted.drop)]
        if any(each.beats(label) for each in rivals):
            return True
        rivals.append(label)
        return False

    def _longer(self, label: _Label, step: Step) -> _Label | None:
        long, turn = label.long + step.long, label.turn + step.turn
        if long > self.wanted.space or (self.wanted.turn is not None and turn > self.wanted.turn + _DEGREE):
            return None
        code = step.item.code
        if label.taken.count(code) < self.free.get(code, 0):
            cost, taken = label.cost, tuple(sorted((*label.taken, code)))
        else:
            price = self.price(step.item)
            if price is None:
                return None
            cost, taken = label.cost + price, label.taken
        return _Label(step.out, cost, turn, label.drop + step.drop, long, (*label.parts, step.item), taken)


_NOTHING: Final = Decimal(0)
_DEGREE: Final = 3.0
"""A bend of 92½ turns a right angle and gives the pipe its fall."""
_OTHER: Final = {"male": "female", "female": "male"}
_TAKES: Final = {"compression waste": ("compression waste", "push-fit waste", "solvent waste")}
"""What a system's sockets take besides its own pipe."""


def _key(end: End) -> Key:
    return end.system, end.nominal, end.gender


@lru_cache(maxsize=1_024)
def _mates(key: Key) -> tuple[Key, ...]:
    """What joins an end like this."""
    system, nominal, gender = key
    if gender == "female":
        return tuple((each, nominal, "male") for each in _TAKES.get(system, (system,)))
    sockets = (system, *(socket for socket, taken in _TAKES.items() if system in taken and socket != system))
    return tuple((each, nominal, _OTHER[gender]) for each in sockets)


def _within(few: tuple[str, ...], many: tuple[str, ...]) -> bool:
    return all(few.count(each) <= many.count(each) for each in few)
