"""Which norms the hours of a stage are worked out by, and what each of them comes to in an estimate."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import RuleFigure
from tundish.figure import Figure
from tundish.rules.book import RULES


@dataclass(frozen=True, slots=True)
class Part:
    """The hours that one norm came to; without a norm those that rest on none, such as hours by rules of the trader's own."""

    norm: RuleFigure | None
    hours: float


def norms_of(stage: str, figures: Mapping[str, RuleFigure]) -> tuple[RuleFigure, ...]:
    """The norms of a stage: the figures in hours of its rules."""
    rules = {f"labour/{stage.replace(' ', '-')}", *_BESIDE.get(stage, ())}
    keys = (key for each in RULES if each.key in rules for key in each.figures)
    return tuple(figures[key] for key in keys if key in figures and figures[key].unit.split("/", maxsplit=1)[0] == "h")


def unrounded(hours: Figure) -> Figure:
    """The hours before they were rounded up to halves of an hour."""
    return hours.terms[0].figure if hours.terms and hours.terms[-1].sign == "packs of" else hours


def parts(hours: Figure, norms: Iterable[RuleFigure]) -> tuple[Part, ...]:
    """The hours of a stage norm by norm; together they are the hours before rounding."""
    called = {each.label: each for each in norms}
    found: dict[str, list[float]] = {}
    for label, came_to in _under(unrounded(hours), 1.0, frozenset(called)):
        found.setdefault(label, []).append(came_to)
    made = tuple(Part(called[label], math.fsum(each)) for label, each in found.items())
    rest = unrounded(hours).value - math.fsum(each.hours for each in made)
    return (*made, Part(None, rest)) if abs(rest) > _NOTHING else made


def _under(figure: Figure, times: float, norms: frozenset[str]) -> Iterator[tuple[str, float]]:
    """Every norm under a figure with what it comes to there: a sum hands its multiple on, a product is shared by the one in hours."""
    if not figure.terms:
        if figure.label in norms:
            yield figure.label, figure.value * times
        return
    signs = {term.sign for term in figure.terms[1:]}
    for term in figure.terms if signs <= _SUM or signs <= _PRODUCT else ():
        below = term.figure
        if not below.unit.startswith("h") or not below.value:
            continue
        here = figure.value / below.value if signs <= _PRODUCT else -1.0 if term.sign == "−" else 1.0
        yield from _under(below, times * here, norms)


_SUM: Final = frozenset("+−")
_PRODUCT: Final = frozenset("×÷")
_NOTHING: Final = 1e-9
_BESIDE: Final[Mapping[str, tuple[str, ...]]] = {"boarding": ("labour/floor-tiling",)}
"""Rules of hours beside that of the stage's own name."""
