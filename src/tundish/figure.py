"""A number that remembers: value and unit, how far it may still move, how it is known, and what it was worked out from.

Arithmetic on figures is the only way to make a worked-out one, so every answer can be asked where it came from. Ranges are
interval arithmetic: whatever each term turns out to be inside its own range, the answer lies inside the answer's.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache
from typing import Final

from tundish.errors import TundishError


class Known(StrEnum):
    """How a figure is known."""

    MEASURED = "measured"
    MAKER = "maker's sheet"
    AGREED = "agreed"
    RULE = "rule"
    RATE = "own rate"
    TYPED = "typed"
    WORKED_OUT = "worked out"
    ASSUMED = "assumed"


class UnitsDifferError(TundishError):
    """Two figures of different units were added or compared: a fault of the program, not of what was typed."""

    def __init__(self, one: Figure, other: Figure) -> None:
        super().__init__(f"{one.label or 'a figure'} is in '{one.unit}', {other.label or 'another'} in '{other.unit}'")


class NoFigureError(TundishError):
    """A figure was asked for that cannot be: divided by a range with zero in it, or not a finite number."""

    def __init__(self, what: str) -> None:
        super().__init__(what)


@dataclass(frozen=True, slots=True)
class Term:
    """One step of a working: the operation ("+", "−", "×", "÷", "most of", "least of", "packs of") and what it was done with."""

    sign: str
    figure: Figure


@dataclass(frozen=True, slots=True)
class Figure:
    """A value between low and high, with its unit, how it is known and its terms.

    `tbc`: nobody has confirmed it, or a term of it, yet. `path`: the input it was read from. `when`: ISO date.
    """

    value: float
    low: float
    high: float
    unit: str = "mm"
    label: str = ""
    known: Known = Known.WORKED_OUT
    tbc: bool = False
    terms: tuple[Term, ...] = ()
    note: str = ""
    when: str = ""
    path: str = ""

    @property
    def settled(self) -> bool:
        """Whether it can no longer move: one value, and confirmed."""
        return self.low == self.high and not self.tbc

    def named(self, label: str, note: str = "") -> Figure:
        """The same figure under a name of its own; a named figure stays one line in the working of others."""
        return replace(self, label=label, note=note or self.note)

    def __add__(self, other: Figure | float) -> Figure:
        return _sum(self, other, "+")

    def __radd__(self, other: float) -> Figure:
        return _sum(number(other, self.unit), self, "+")

    def __sub__(self, other: Figure | float) -> Figure:
        return _sum(self, other, "−")

    def __rsub__(self, other: float) -> Figure:
        return _sum(number(other, self.unit), self, "−")

    def __mul__(self, other: Figure | float) -> Figure:
        return _product(self, other if isinstance(other, Figure) else number(other, ""), "×")

    def __rmul__(self, other: float) -> Figure:
        return _product(number(other, ""), self, "×")

    def __truediv__(self, other: Figure | float) -> Figure:
        return _product(self, other if isinstance(other, Figure) else number(other, ""), "÷")


@dataclass(frozen=True, slots=True)
class Reason:
    """One line of a where-from tree; the children of a sum add up to its amount, sign by sign."""

    sign: str
    figure: Figure
    children: tuple[Reason, ...]


def number(value: float, unit: str = "mm", label: str = "", known: Known = Known.WORKED_OUT) -> Figure:
    """A settled figure with no working."""
    _finite(value)
    return Figure(float(value), float(value), float(value), unit, label, known)


def between(value: float, low: float, high: float, unit: str = "mm", label: str = "") -> Figure:
    """A figure that is still to be confirmed, somewhere from low to high."""
    for each in (value, low, high):
        _finite(each)
    if not low <= value <= high:
        message = f"{label or 'a figure'}: {value} is not between {low} and {high}"
        raise NoFigureError(message)
    return Figure(float(value), float(low), float(high), unit, label, Known.ASSUMED, tbc=True)


def total(figures: tuple[Figure, ...] | list[Figure], label: str = "", unit: str = "mm") -> Figure:
    """The sum of any number of figures, each kept as one line; nothing at all is zero of `unit`."""
    if not figures:
        return number(0.0, unit, label)
    first = figures[0]
    for each in figures:
        if each.unit != first.unit:
            raise UnitsDifferError(first, each)
    return Figure(
        _tidy(math.fsum(each.value for each in figures)),
        _tidy(math.fsum(each.low for each in figures)),
        _tidy(math.fsum(each.high for each in figures)),
        first.unit,
        label,
        tbc=any(each.tbc for each in figures),
        terms=tuple(Term("+", each) for each in figures),
    )


def largest(*figures: Figure, label: str = "") -> Figure:
    """The larger of several figures of one unit."""
    return _extreme("most of", figures, label)


def smallest(*figures: Figure, label: str = "") -> Figure:
    """The smaller of several figures of one unit."""
    return _extreme("least of", figures, label)


def round_up(figure: Figure, step: float | Figure, label: str = "") -> Figure:
    """The figure rounded up to a whole number of steps (packs, bars, halves of an hour); step must be above zero."""
    by = step if isinstance(step, Figure) else number(step, figure.unit)
    if by.low <= 0:
        message = f"{figure.label or 'a figure'} cannot be rounded up to steps of {by.value}"
        raise NoFigureError(message)
    if by.unit != figure.unit:
        raise UnitsDifferError(figure, by)
    corners = [_up(value, size) for value in (figure.low, figure.high) for size in (by.low, by.high)]
    # Rounding up is not monotonic in the step, but lies between the amount itself and the amount plus one step.
    low = corners[0] if by.low == by.high else figure.low
    high = max(corners) if by.low == by.high else figure.high + by.high
    terms = (Term("+", figure), Term("packs of", by))
    return Figure(_up(figure.value, by.value), low, high, figure.unit, label, tbc=figure.tbc or by.tbc, terms=terms)


def converted(figure: Figure, unit: str, label: str = "") -> Figure:
    """The figure in another unit of the same kind: mm to m, mm² to m², kg to kN and back."""
    factor = _FACTORS.get((figure.unit, unit))
    if factor is None:
        raise UnitsDifferError(figure, number(0, unit, "what it is turned into"))
    scale = Figure(factor, factor, factor, _unit_of(unit, figure.unit, -1), "", Known.RULE)
    values = (_tidy(figure.value * factor), _tidy(figure.low * factor), _tidy(figure.high * factor))
    terms = (Term("+", figure), Term("×", scale))
    return Figure(*values, unit, label or figure.label, tbc=figure.tbc, terms=terms, note=figure.note)


def where_from(figure: Figure) -> Reason:
    """The whole working of a figure as a tree, down to what was measured, agreed or ruled."""
    return _reason("", figure)


def worked_again(figure: Figure) -> float:
    """The value its terms give when worked again from them: equal to `value` for every figure that has terms."""
    if not figure.terms:
        return figure.value
    value = figure.terms[0].figure.value
    for term in figure.terms[1:]:
        value = _STEPS[term.sign](value, term.figure.value)
    return _tidy(value)


def times_units(one: str, other: str, power: int = 1) -> str:
    """The unit of a product (power 1) or a quotient (power −1): "m" and "m" give "m²", "mm" over "m" gives "mm/m"."""
    return _unit_of(one, other, power)


_FACTORS: Final = {
    ("mm", "m"): 0.001,
    ("m", "mm"): 1000.0,
    ("mm²", "m²"): 1e-6,
    ("m²", "mm²"): 1e6,
    ("mm", "mm"): 1.0,
    ("kg", "kN"): 9.80665e-3,  # standard acceleration of free fall, ISO 80000-3
    ("kN", "kg"): 1 / 9.80665e-3,
}
_TIDY_PLACES: Final = 9


def _reason(sign: str, figure: Figure) -> Reason:
    return Reason(sign, figure, tuple(_reason(term.sign, term.figure) for term in figure.terms))


def _sum(one: Figure, other: Figure | float, sign: str) -> Figure:
    second = other if isinstance(other, Figure) else number(other, one.unit)
    if one.unit != second.unit:
        raise UnitsDifferError(one, second)
    if sign == "+":
        values = (one.value + second.value, one.low + second.low, one.high + second.high)
    else:
        values = (one.value - second.value, one.low - second.high, one.high - second.low)
    value, low, high = (_tidy(each) for each in values)
    # An unnamed sum is only a step on the way: its lines are laid open, so that a receipt reads as one column.
    opened = one.terms if one.terms and not one.label and one.terms[-1].sign in "+−" else (Term("+", one),)
    terms = (*opened, Term(sign, second))
    return Figure(value, low, high, one.unit, tbc=one.tbc or second.tbc, terms=terms)


def _product(one: Figure, other: Figure, sign: str) -> Figure:
    if sign == "÷":
        if other.low <= 0 <= other.high:
            message = f"{one.label or 'a figure'} cannot be divided by {other.label or 'a figure'}, which may be zero"
            raise NoFigureError(message)
        corners = [a / b for a in (one.low, one.high) for b in (other.low, other.high)]
        value, unit = one.value / other.value, _unit_of(one.unit, other.unit, -1)
    else:
        corners = [a * b for a in (one.low, one.high) for b in (other.low, other.high)]
        value, unit = one.value * other.value, _unit_of(one.unit, other.unit, 1)
    opened = one.terms if one.terms and not one.label and one.terms[-1].sign in "×÷" else (Term("+", one),)
    terms = (*opened, Term(sign, other))
    low, high = _tidy(min(corners)), _tidy(max(corners))
    return Figure(_tidy(value), low, high, unit, tbc=one.tbc or other.tbc, terms=terms)


def _extreme(sign: str, figures: tuple[Figure, ...], label: str) -> Figure:
    if not figures:
        message = f"{label or 'a figure'}: the {sign} nothing"
        raise NoFigureError(message)
    for each in figures[1:]:
        if each.unit != figures[0].unit:
            raise UnitsDifferError(figures[0], each)
    pick = max if sign == "most of" else min
    values = (pick(each.value for each in figures), pick(each.low for each in figures), pick(each.high for each in figures))
    # Only a term that can still decide the answer keeps it open.
    decides = [each for each in figures if (each.high >= values[1] if pick is max else each.low <= values[2])]
    terms = tuple(Term(sign if place else "+", each) for place, each in enumerate(figures))
    return Figure(*values, figures[0].unit, label, tbc=any(each.tbc for each in decides), terms=terms)


def _up(value: float, step: float) -> float:
    return _tidy(math.ceil(_tidy(value / step)) * step)


def _tidy(value: float) -> float:
    """Take off what binary fractions leave behind, nine places down: 0.1 + 0.2 is 0.3."""
    _finite(value)
    return round(value, _TIDY_PLACES)


def _finite(value: float) -> None:
    if not math.isfinite(value):
        message = f"{value} is not a finite number"
        raise NoFigureError(message)


_STEPS: Final[Mapping[str, Callable[[float, float], float]]] = {
    "+": lambda a, b: a + b,
    "−": lambda a, b: a - b,
    "×": lambda a, b: a * b,
    "÷": lambda a, b: a / b,
    "most of": lambda a, b: max(a, b),
    "least of": lambda a, b: min(a, b),
    "packs of": _up,
}


@lru_cache(maxsize=512)
def _unit_of(one: str, other: str, power: int) -> str:
    powers = _powers(one)
    for symbol, exponent in _powers(other).items():
        powers[symbol] = powers.get(symbol, 0) + power * exponent
    top = [_shown(symbol, exponent) for symbol, exponent in powers.items() if exponent > 0]
    bottom = [_shown(symbol, -exponent) for symbol, exponent in powers.items() if exponent < 0]
    if not top and not bottom:
        return ""
    return "·".join(top or ["1"]) + ("/" + "·".join(bottom) if bottom else "")


def _powers(unit: str) -> dict[str, int]:
    powers: dict[str, int] = {}
    for place, part in enumerate(unit.split("/")):
        for symbol in part.split("·"):
            if not symbol or symbol == "1":
                continue
            bare = symbol.rstrip("²³")
            exponent = {"²": 2, "³": 3}.get(symbol[len(bare) :], 1)
            powers[bare] = powers.get(bare, 0) + (exponent if place == 0 else -exponent)
    return powers


def _shown(symbol: str, exponent: int) -> str:
    return symbol + {1: "", 2: "²", 3: "³"}.get(exponent, f"^{exponent}")
