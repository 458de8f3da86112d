"""The same money, better remainders: pieces moved between bars, and bars swapped for others of the rack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from itertools import chain
from typing import Final

from tundish.cutting.first import fullest
from tundish.cutting.whole import MOST_ROOM, Pattern, Task

_BARS: Final = 24
_FEWEST_BARS: Final = 8
_WIDTHS: Final = 1_000
_PASSES: Final = 8
_EQUAL: Final = 1e-9
Rank = tuple[float, float, int, int]


def with_better_remnants(task: Task, plan: Sequence[Pattern]) -> tuple[Pattern, ...]:
    """A plan no dearer whose remainders, less the rack pieces taken, are worth no less.

    Among equals it is the one with fewer settings of the saw's stop, then of fewer bars.
    Two bars at a time are cut anew: one as full as can be, so that what is left lies together in the other; or with all
    pieces of a length together in one.
    """
    bars = list(plan)
    for _ in range(_PASSES):
        before = list(bars)
        _swap_rods(task, bars)
        _repack(task, bars)
        if bars == before or task.stop():
            break
    return tuple(bars)


def _repack(task: Task, bars: list[Pattern]) -> None:
    most = max(_FEWEST_BARS, min(_BARS, _WIDTHS // max(1, len(task.widths))))
    loose = sorted(range(len(bars)), key=lambda bar: -task.remainder(bars[bar]))[:most]
    for place, one in enumerate(loose):
        if task.stop():
            break
        for other in loose[place + 1 :]:
            pair = (bars[one], bars[other])
            # Bars that are cut like another take no setting of the stop of their own.
            set_for = {bar.counts for at, bar in enumerate(bars) if at not in (one, other)}
            best = min(_splits(task, *pair), key=lambda split: _rank(task, split, set_for), default=pair)
            if _less(_rank(task, best, set_for), _rank(task, pair, set_for)):
                bars[one], bars[other] = best
    bars[:] = [pattern for pattern in bars if any(pattern.counts)]


def _splits(task: Task, one: Pattern, other: Pattern) -> Iterator[tuple[Pattern, Pattern]]:
    both = tuple(here + there for here, there in zip(one.counts, other.counts, strict=True))
    if not any(one.counts) or not any(other.counts) or max(task.rods[bar.kind].room for bar in (one, other)) > MOST_ROOM:
        return
    # What either bar held fits it still, so the rest of a bar cut fuller always fits the other.
    for first, second in ((one, other), (other, one)):
        counts = fullest(task, both, task.rods[first.kind].room)
        rest = tuple(all_ - here for all_, here in zip(both, counts, strict=True))
        pair = Pattern(first.kind, counts), Pattern(second.kind, rest)
        yield pair if first is one else (pair[1], pair[0])
    if any(here and there for here, there in zip(one.counts, other.counts, strict=True)):
        yield from _sorted(task, both, one.kind, other.kind)


def _sorted(task: Task, both: tuple[int, ...], one: int, other: int) -> Iterator[tuple[Pattern, Pattern]]:
    """The pieces of two bars with as many lengths as can be kept whole in one or the other, begun with each length in turn."""
    rooms = task.rods[one].room, task.rods[other].room
    lengths = [place for place, count in enumerate(both) if count]
    for start in range(len(lengths)):
        counts, left = [0] * len(both), rooms[0]
        for place in lengths[start:] + lengths[:start]:
            if task.widths[place] * both[place] <= left:
                counts[place] = both[place]
                left -= task.widths[place] * both[place]
        rest = tuple(all_ - here for all_, here in zip(both, counts, strict=True))
        if task.used(rest) <= rooms[1]:
            yield Pattern(one, tuple(counts)), Pattern(other, rest)


def _swap_rods(task: Task, bars: list[Pattern]) -> None:
    """Move the pieces of a bar to an unused one that costs no more, where that leaves more of worth."""
    spare: list[float] = [float("inf") if rod.count is None else rod.count for rod in task.rods]
    for pattern in bars:
        spare[pattern.kind] -= 1
    for bar, pattern in enumerate(bars):
        used = task.used(pattern.counts)
        able = [kind for kind, rod in enumerate(task.rods) if kind == pattern.kind or (spare[kind] > 0 and rod.room >= used)]
        best = min((Pattern(kind, pattern.counts) for kind in able), key=lambda one: _rank(task, (one,)))
        if _less(_rank(task, (best,)), _rank(task, (pattern,))):
            spare[pattern.kind] += 1
            spare[best.kind] -= 1
            bars[bar] = best


def _rank(task: Task, bars: Sequence[Pattern], set_for: AbstractSet[tuple[int, ...]] = frozenset()) -> Rank:
    """Money, then what is left in the rack, settings of the stop, bars: less is better. A bar with no piece is not taken."""
    taken = [pattern for pattern in bars if any(pattern.counts)]
    cost, gain = sum(task.rods[pattern.kind].cost for pattern in taken), sum(task.gain(pattern) for pattern in taken)
    return cost, -gain, sum(map(bool, chain.from_iterable({pattern.counts for pattern in taken} - set_for))), len(taken)


def _less(one: Rank, other: Rank) -> bool:
    """Whether `one` ranks better by more than rounding."""
    if one[0] != other[0]:
        return one[0] < other[0]
    if abs(one[1] - other[1]) > _EQUAL:
        return one[1] < other[1]
    return one[2:] < other[2:]
