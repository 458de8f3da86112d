"""A bar on several supports under point loads: Clapeyron's theorem of three moments, one section throughout.

Millimetres and newtons, so moments are in Nmm; loads, reactions and deflections count positive towards the load, moments positive
where they bend the bar as a load between two supports does. Textbook statics.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

Load = tuple[float, float]
"""Where it acts along the bar, and how hard."""


@dataclass(frozen=True, slots=True)
class Bent:
    """What a bar does under its loads. `reactions` are the supports', in order; `moment` and `deflection` the largest either way."""

    reactions: tuple[float, ...]
    moment: float
    deflection: float


def bend(supports: Sequence[float], loads: Sequence[Load], stiffness: float) -> Bent:
    """A bar over two or more supports, from the left, with `stiffness` E times I in Nmm²; loads may hang past the last support.

    Deflection is looked at under every load and midway between supports.
    """
    places = tuple(supports)
    outside = (tuple((places[0] - x, p) for x, p in loads if x < places[0]), tuple((x - places[-1], p) for x, p in loads if x > places[-1]))
    spans = tuple(
        _Span(right - left, tuple((x - left, p) for x, p in loads if left <= x < right or (right == places[-1] and x == right)))
        for left, right in pairwise(places)
    )
    moments = _support_moments(spans, (_hogging(outside[0]), _hogging(outside[1])))
    bays = tuple(zip(spans, pairwise(moments), strict=True))
    reactions = [sum(p for _, p in outside[0]), *(0.0 for _ in spans)]
    reactions[-1] += sum(p for _, p in outside[1])
    for place, (span, ends) in enumerate(bays):
        pushed = span.pushed(*ends)
        reactions[place] += pushed[0]
        reactions[place + 1] += pushed[1]
    worst = max(map(abs, (*moments, *(moment for span, ends in bays for moment in span.bent(*ends)))))
    sags = [sag for span, ends in bays for sag in span.sags(*ends)]
    sags += _tips(outside[0], spans[0].turned(moments[0], moments[1]))
    sags += _tips(outside[1], spans[-1].reversed().turned(moments[-1], moments[-2]))
    return Bent(tuple(reactions), worst, max(map(abs, sags)) / stiffness)


@dataclass(frozen=True, slots=True)
class _Span:
    """Between two supports: loads by their distance from the left one."""

    long: float
    loads: tuple[Load, ...]

    def reversed(self) -> _Span:
        """The same seen from the other side."""
        return _Span(self.long, tuple((self.long - a, p) for a, p in self.loads))

    def pushed(self, left: float, right: float) -> tuple[float, float]:
        """What the span puts on its left and right support, with these moments over them."""
        simple = sum(p * (self.long - a) for a, p in self.loads) / self.long
        carried = (right - left) / self.long
        return simple + carried, sum(p for _, p in self.loads) - simple - carried

    def term(self) -> float:
        """Six times the area of its simple moments about the left support over its length."""
        return sum(p * a * (self.long**2 - a**2) for a, p in self.loads) / self.long

    def bent(self, left: float, right: float) -> list[float]:
        """The moment under each load."""
        start = self.pushed(left, right)[0]
        return [left + start * x - sum(p * (x - a) for a, p in self.loads if a < x) for x, _ in self.loads]

    def sags(self, left: float, right: float) -> list[float]:
        """Deflection times stiffness under each load and midway."""
        return [self._sag(x, left, right) for x in (*(a for a, _ in self.loads), self.long / 2)]

    def turned(self, left: float, right: float) -> float:
        """How far its left end turns, times stiffness; positive towards the load."""
        simple = sum(p * (self.long - a) * (self.long**2 - (self.long - a) ** 2) for a, p in self.loads) / (6 * self.long)
        return simple + (2 * left + right) * self.long / 6

    def _sag(self, x: float, left: float, right: float) -> float:
        made = (left * (self.long - x) * (2 * self.long - x) + right * (self.long + x) * (self.long - x)) * x / (6 * self.long)
        for a, p in self.loads:
            near, far = (x, self.long - a) if x <= a else (self.long - x, a)
            made += p * far * near * (self.long**2 - far**2 - near**2) / (6 * self.long)
        return made


def _hogging(outside: Sequence[Load]) -> float:
    return -sum(p * out for out, p in outside)


def _support_moments(spans: Sequence[_Span], ends: tuple[float, float]) -> tuple[float, ...]:
    """The moment over every support: one equation for each that has a span on both sides, each reaching to its neighbours only."""
    rows = []
    for before, after in pairwise(spans):
        rows.append([before.long, 2 * (before.long + after.long), after.long, -before.term() - after.reversed().term()])
    if rows:
        rows[0][3] -= rows[0][0] * ends[0]
        rows[-1][3] -= rows[-1][2] * ends[1]
    for above, row in pairwise(rows):
        share = row[0] / above[1]
        row[1] -= share * above[2]
        row[3] -= share * above[3]
    found: list[float] = []
    for place in range(len(rows) - 1, -1, -1):
        carried = rows[place][2] * found[-1] if found else 0.0
        found.append((rows[place][3] - carried) / rows[place][1])
    return (ends[0], *reversed(found), ends[1])


def _tips(outside: Sequence[Load], turned: float) -> list[float]:
    """Deflection times stiffness under each load that hangs past an end support."""
    return [-turned * out + sum(p * min(out, c) ** 2 * (3 * max(out, c) - min(out, c)) / 6 for c, p in outside) for out, _ in outside]
