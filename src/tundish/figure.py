"""A number that remembers: value and unit, how far it may still move, how it is known, and what it was worked out from.

Arithmetic on figures is the only way to make a worked-out one, so every answer can be asked where it came from. Ranges are
interval arithmetic: whatever each term turns out to be inside its own range, the answer lies inside the answer's.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache, reduce
from itertools import chain, product
from typing import Final

from tundish.errors import TundishError
from tundish.record import record


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


@record
class Term:
    """One step of a working: the operation ("+", "−", "×", "÷", "most of", "least of", "packs of") and what it was done with."""

    sign: str
    figure: Figure


@record
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
        return Figure(
            self.value, self.low, self.high, self.unit, label, self.known, self.tbc, self.terms, note or self.note, self.when, self.path
        )

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
    _finite(value := float(value))
    return Figure(value, value, value, unit, label, known)


def between(value: float, low: float, high: float, unit: str = "mm", label: str = "") -> Figure:
    """A figure that is still to be confirmed, somewhere from low to high."""
    for each in (value, low, high):
        _finite(each)
    if not low <= value <= high:
        raise NoFigureError(f"{label or 'a figure'}: {value} is not between {low} and {high}")
    return Figure(float(value), float(low), float(high), unit, label, Known.ASSUMED, tbc=True)


def total(figures: Sequence[Figure], label: str = "", unit: str = "mm") -> Figure:
    """The sum of any number of figures, each kept as one line; nothing at all is zero of `unit`."""
    if not figures:
        return number(0.0, unit, label)
    values, terms, unit, tbc, sure = [], [], figures[0].unit, False, True
    for each in figures:
        if each.unit != unit:
            raise UnitsDifferError(figures[0], each)
        values.append(each.value)
        terms.append(Term("+", each))
        tbc = tbc or each.tbc
        sure = sure and each.low == each.high
    value = _added(values)
    ends = (value,) if sure else (_added([each.low for each in figures]), _added([each.high for each in figures]))
    return Figure(*_spread(value, ends), unit, label, tbc=tbc, terms=tuple(terms))


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
        raise NoFigureError(f"{figure.label or 'a figure'} cannot be rounded up to steps of {by.low}")
    if by.unit != figure.unit:
        raise UnitsDifferError(figure, by)
    # A step that may still change moves the answer both ways, but never below the figure or a whole step above it.
    ends = (_up(figure.low, by.low), _up(figure.high, by.low)) if by.low == by.high else (figure.low, figure.high + by.high)
    terms = (Term("+", figure), Term("packs of", by))
    return Figure(*_spread(_up(figure.value, by.value), ends), figure.unit, label, tbc=figure.tbc or by.tbc, terms=terms)


def converted(figure: Figure, unit: str, label: str = "") -> Figure:
    """The figure in another unit of the same kind: mm to m, mm² to m², kg to kN and back."""
    if unit == figure.unit:
        return figure.named(label or figure.label)
    factor = _FACTORS.get((figure.unit, unit))
    if factor is None:
        raise UnitsDifferError(figure, number(0, unit, "what it is turned into"))
    scaled = _product(figure, number(factor, times_units(unit, figure.unit, -1), known=Known.RULE), "×")
    return scaled.named(label or figure.label, figure.note)


def without(figure: Figure, part: Figure) -> Figure:
    """A sum with one of its terms left out, or taken off where it is none: what is above the finished floor does not move with it."""
    rest = [term for term in figure.terms if term != Term("+", part)]
    if len(rest) != len(figure.terms) - 1 or not rest or rest[0].sign != "+" or {term.sign for term in rest} - {"+", "−"}:
        return together(figure - part)
    return reduce(lambda one, term: _sum(one, term.figure, term.sign), rest[1:], rest[0].figure)


def together(figure: Figure) -> Figure:
    """The same figure over the range of its inputs: one that is met twice moves once, where terms alone would move apart.

    Exact where it rises or falls all the way with each, as sums and quotients do; what is picked or rounded up keeps its range.
    """
    under = tuple(_under(figure))
    inputs = {each.path or id(each): each for each in under if not each.terms and each.low < each.high}
    if len(inputs) > _MOST_INPUTS or any(term.sign not in _EVEN for each in under for term in each.terms):
        return figure
    corners = product(*((each.low, each.high) for each in inputs.values()))
    ends = [worked_with(figure, dict(zip(inputs, corner, strict=True))) for corner in corners]
    return replace(figure, low=min(figure.value, *ends), high=max(figure.value, *ends))


def where_from(figure: Figure) -> Reason:
    """The whole working of a figure as a tree, down to what was measured, agreed or ruled."""
    return _reason("", figure)


def rests_on(*figures: Figure, only_open: bool = False) -> tuple[Figure, ...]:
    """The inputs that figures were worked out from, each once by its path, in the order in which they are met.

    `only_open`: those alone that can still move them.
    """
    found: dict[str, Figure] = {}
    seen: set[int] = set()
    waiting = list(reversed(figures))
    while waiting:
        each = waiting.pop()
        if id(each) in seen or (only_open and each.settled):
            continue
        seen.add(id(each))
        if each.path:
            found.setdefault(each.path, each)
        waiting += [term.figure for term in reversed(each.terms)]
    return tuple(found.values())


def worked_again(figure: Figure) -> float:
    """The value its terms give when worked again from them: equal to `value` for every figure that has terms."""
    if not figure.terms:
        return figure.value
    return reduce(lambda value, term: _STEPS[term.sign](value, term.figure.value), figure.terms[1:], figure.terms[0].figure.value)


def worked_with(figure: Figure, inputs: Mapping[str | int, float]) -> float:
    """What a figure comes to with inputs, by path or identity, at other values."""
    if (key := figure.path or id(figure)) in inputs or not figure.terms:
        return inputs.get(key, figure.value)
    first = worked_with(figure.terms[0].figure, inputs)
    return reduce(lambda value, term: _STEPS[term.sign](value, worked_with(term.figure, inputs)), figure.terms[1:], first)


@lru_cache(maxsize=512)
def times_units(one: str, other: str, power: int = 1) -> str:
    """The unit of a product (power 1) or a quotient (power −1): "m" and "m" give "m²", "mm" over "m" gives "mm/m"."""
    powers = _powers(one)
    for symbol, exponent in _powers(other).items():
        powers[symbol] = powers.get(symbol, 0) + power * exponent
    # In one order, so that a load by its arm and an arm by its load are of one unit.
    top = [_raised(symbol, exponent) for symbol, exponent in sorted(powers.items()) if exponent > 0]
    bottom = [_raised(symbol, -exponent) for symbol, exponent in sorted(powers.items()) if exponent < 0]
    return "·".join(top or (["1"] if bottom else [])) + ("/" + "·".join(bottom) if bottom else "")


_FACTORS: Final = {
    ("mm", "m"): 0.001,
    ("m", "mm"): 1000.0,
    ("mm²", "m²"): 1e-6,
    ("m²", "mm²"): 1e6,
    ("ml", "l"): 0.001,
    ("l", "ml"): 1000.0,
    ("N", "kN"): 0.001,
    ("kN", "N"): 1000.0,
    ("%", ""): 0.01,
    ("", "%"): 100.0,
    ("kg", "kN"): 9.80665e-3,  # standard acceleration of free fall, ISO 80000-3
    ("kN", "kg"): 1 / 9.80665e-3,
}
_DIGITS: Final = 13
_WHOLE: Final = 1e12
"""Whole numbers up to here have nothing behind them to take off."""
_POWERS: Final = "⁰¹²³⁴⁵⁶⁷⁸⁹"


def _reason(sign: str, figure: Figure) -> Reason:
    return Reason(sign, figure, tuple(_reason(term.sign, term.figure) for term in figure.terms))


def _sum(one: Figure, other: Figure | float, sign: str) -> Figure:
    second = other if isinstance(other, Figure) else number(other, one.unit)
    if one.unit != second.unit:
        raise UnitsDifferError(one, second)
    step, ends = (_plus, (second.low, second.high)) if sign == "+" else (_minus, (second.high, second.low))
    value, exact = step(one.value, second.value), one.low == one.high and second.low == second.high
    spread = (value, value, value) if exact else _spread(value, (step(one.low, ends[0]), step(one.high, ends[1])))
    return Figure(*spread, one.unit, tbc=one.tbc or second.tbc, terms=(*_opened(one, "+−"), Term(sign, second)))


def _product(one: Figure, other: Figure, sign: str) -> Figure:
    if sign == "÷" and other.low <= 0 <= other.high:
        raise NoFigureError(f"{one.label or 'a figure'} cannot be divided by {other.label or 'a figure'}, which may be zero")
    step, power = (_times, 1) if sign == "×" else (_over, -1)
    value, exact = step(one.value, other.value), one.low == one.high and other.low == other.high
    spread = (value, value, value) if exact else _spread(value, [step(a, b) for a in (one.low, one.high) for b in (other.low, other.high)])
    terms = (*_opened(one, "×÷"), Term(sign, other))
    return Figure(*spread, times_units(one.unit, other.unit, power), tbc=one.tbc or other.tbc, terms=terms)


def _opened(figure: Figure, signs: str) -> tuple[Term, ...]:
    """The lines of an unnamed figure of the same kind, which is only a step on the way: a receipt reads as one column."""
    return figure.terms if figure.terms and not figure.label and figure.terms[-1].sign in signs else (Term("+", figure),)


def _extreme(sign: str, figures: tuple[Figure, ...], label: str) -> Figure:
    if not figures:
        raise NoFigureError(f"{label or 'a figure'}: the {sign} nothing")
    for each in figures[1:]:
        if each.unit != figures[0].unit:
            raise UnitsDifferError(figures[0], each)
    pick = max if sign == "most of" else min
    values = (pick(each.value for each in figures), pick(each.low for each in figures), pick(each.high for each in figures))
    # Only a term that can still decide the answer keeps it open.
    decides = [each for each in figures if (each.high >= values[1] if pick is max else each.low <= values[2])]
    terms = tuple(Term(sign if place else "+", each) for place, each in enumerate(figures))
    return Figure(*values, figures[0].unit, label, tbc=any(each.tbc for each in decides), terms=terms)


def _spread(value: float, ends: Iterable[float]) -> tuple[float, float, float]:
    """Value, low and high; tidying may not push the value out of its own range."""
    return value, min(value, *ends), max(value, *ends)


def _plus(one: float, other: float) -> float:
    value = one + other
    whole = value % 1 == 0 and abs(one) + abs(other) < _WHOLE
    return value + 0.0 if whole else _tidied(value, max(abs(one), abs(other), abs(value)))


def _added(values: Sequence[float]) -> float:
    """The sum, tidied at every step; whole numbers leave nothing to tidy, so they are added at once."""
    if len(values) == 1:
        return values[0] + 0.0
    whole = sum(values)
    if whole % 1 == 0 and max(map(abs, values)) * len(values) < _WHOLE and not any(value % 1 for value in values):
        return whole + 0.0
    return reduce(_plus, values)


def _minus(one: float, other: float) -> float:
    return _plus(one, -other)


def _times(one: float, other: float) -> float:
    return _tidy(one * other)


def _over(one: float, other: float) -> float:
    return _tidy(one / other)


def _up(value: float, step: float) -> float:
    return _times(math.ceil(_over(value, step)), step)


def _tidy(value: float) -> float:
    return value + 0.0 if value % 1 == 0 and -_WHOLE < value < _WHOLE else _tidied(value, abs(value))


def _tidied(value: float, size: float) -> float:
    """Take off what binary fractions leave behind, thirteen digits down the largest number at work: 0.1 + 0.2 is 0.3."""
    _finite(value)
    return round(value, _DIGITS - 1 - math.floor(math.log10(size))) if size else 0.0


def _finite(value: float) -> None:
    if not math.isfinite(value):
        raise NoFigureError(f"{value} is not a finite number")


_STEPS: Final[Mapping[str, Callable[[float, float], float]]] = {
    "+": _plus,
    "−": _minus,
    "×": _times,
    "÷": _over,
    "most of": max,
    "least of": min,
    "packs of": _up,
}
_EVEN: Final = frozenset("+−×÷")
_MOST_INPUTS: Final = 8


def _under(figure: Figure) -> Iterable[Figure]:
    return chain([figure], *(_under(term.figure) for term in figure.terms))


def _powers(unit: str) -> dict[str, int]:
    powers: dict[str, int] = {}
    for place, part in enumerate(unit.split("/")):
        for symbol in part.split("·"):
            bare = symbol.rstrip(_POWERS)
            if bare not in {"", "1"}:
                exponent = int("".join(str(_POWERS.index(digit)) for digit in symbol[len(bare) :]) or 1)
                powers[bare] = powers.get(bare, 0) + (exponent if place == 0 else -exponent)
    return powers


def _raised(symbol: str, exponent: int) -> str:
    return symbol if exponent == 1 else symbol + "".join(_POWERS[int(digit)] for digit in str(exponent))
