"""What is to be cut, what it is cut from, and the plan that says how: records only.

Lengths are mm, money whole pence. A plan speaks of pieces and stock by their place in the tuples it was given.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum
from typing import Final

from tundish.errors import TundishError

KEPT_SIDE: Final = 150.0
"""Shortest side of a board remainder that is worth a place in the rack: common practice."""


class BadCutError(TundishError, ValueError):
    """A length, count, cost or kerf that no saw could work to: a fault of the caller."""


class Effort(IntEnum):
    """How hard to look for a cheaper plan."""

    QUICK = 0
    """A sound plan at once, by rules of thumb."""
    BEST = 1
    """The cheapest that can be found soon, with a bound that says how far it may be from the least possible."""
    PROOF = 2
    """The same, and then as near to a proof as can be had: seconds, so it is for the background."""


@dataclass(frozen=True, slots=True)
class Piece:
    """`count` identical pieces to cut; `width` 0 is a piece of bar, `turn` lets a piece of sheet lie either way.

    `mitres` of a bar's ends are cut at 45 degrees; the length is then over the long points. Pieces are laid one after another, so that
    no credit is taken for two slants that could share one cut.
    """

    mark: str
    length: float
    count: int = 1
    what: str = ""
    where: str = ""
    width: float = 0.0
    turn: bool = True
    tbc: bool = False
    mitres: int = 0

    def taken(self, kerf: float) -> float:
        """What a piece of bar takes of it, less one square saw cut, mm: the blade takes more of a bar that it meets aslant."""
        return self.length + self.mitres * slant(kerf)

    def __post_init__(self) -> None:
        _length(self.length, f"piece {self.mark}: length")
        if self.width != 0:
            _length(self.width, f"piece {self.mark}: width")
        _count(self.count, f"piece {self.mark}: count")
        if self.mitres not in (0, 1, 2):
            raise BadCutError(f"piece {self.mark}: a piece has two ends, so 0, 1 or 2 mitres, not {self.mitres}")


@dataclass(frozen=True, slots=True)
class Bar:
    """A length of bar to buy or from the rack; `count` None is as many as needed."""

    length: float
    cost_pence: int
    count: int | None = None
    name: str = ""
    offcut: bool = False

    def __post_init__(self) -> None:
        _length(self.length, f"bar {self.name}: length")
        _count(self.cost_pence, f"bar {self.name}: cost")
        _count(self.count or 0, f"bar {self.name}: count")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A size of sheet to buy or from the rack; `count` None is as many as needed."""

    length: float
    width: float
    cost_pence: int
    count: int | None = None
    name: str = ""
    offcut: bool = False

    def __post_init__(self) -> None:
        _length(self.length, f"sheet {self.name}: length")
        _length(self.width, f"sheet {self.name}: width")
        _count(self.cost_pence, f"sheet {self.name}: cost")
        _count(self.count or 0, f"sheet {self.name}: count")


@dataclass(frozen=True, slots=True)
class BarCut:
    """One bar as it is cut: pieces in the order of the cuts, longest first, and what is left."""

    bar: int
    pieces: tuple[int, ...]
    remainder: float


@dataclass(frozen=True, slots=True)
class Place:
    """Where a piece lies on its sheet: corner from the sheet's own corner, size as it lies."""

    piece: int
    x: float
    y: float
    length: float
    width: float
    turned: bool


@dataclass(frozen=True, slots=True)
class Rect:
    """What is left of a sheet in one piece."""

    x: float
    y: float
    length: float
    width: float


@dataclass(frozen=True, slots=True)
class SheetCut:
    """One sheet as it is cut, by cuts from edge to edge."""

    sheet: int
    places: tuple[Place, ...]
    remainders: tuple[Rect, ...]


@dataclass(frozen=True, slots=True)
class BarPlan:
    """How the bars are cut. `bound_pence` is the least any plan for the placed pieces could cost.

    `proven` says that none is cheaper. `unplaced` names the pieces left over, once for each copy: too long for any bar, or the
    stock ran out (then `proven` is false).
    """

    stock: tuple[Bar, ...]
    pieces: tuple[Piece, ...]
    cuts: tuple[BarCut, ...]
    cost_pence: int
    bound_pence: int
    proven: bool
    unplaced: tuple[int, ...]
    kerf: float

    @property
    def cut_length(self) -> float:
        """Length of all pieces cut."""
        return math.fsum(self.pieces[piece].length for cut in self.cuts for piece in cut.pieces)

    @property
    def scrap(self) -> float:
        """Length of the bars taken that is in no piece: saw kerf and remainders."""
        return math.fsum(self.stock[cut.bar].length for cut in self.cuts) - self.cut_length

    @property
    def set_ups(self) -> int:
        """How often the saw's stop is set: once for each length of a bar, bars cut alike together."""
        alike = {tuple(self.pieces[piece].length for piece in cut.pieces) for cut in self.cuts}
        return sum(len(set(lengths)) for lengths in alike)

    def kept(self, shortest: float) -> tuple[Bar, ...]:
        """Remainders at least so long, as offcuts for the rack, longest first."""
        left = ((self.stock[cut.bar].name, cut.remainder) for cut in self.cuts if cut.remainder >= shortest)
        return tuple(Bar(length, 0, 1, name, offcut=True) for name, length in sorted(left, key=lambda one: -one[1]))

    @property
    def rack_pence(self) -> int:
        """What of `cost_pence` is for pieces of the rack."""
        return _rack_pence(self.stock, self.used())

    def used(self) -> tuple[int, ...]:
        """How many of each kind of stock the plan takes."""
        return _used(len(self.stock), (cut.bar for cut in self.cuts))


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """How the sheets are cut; the same promises as `BarPlan`. `trim` comes off each of the four edges first."""

    stock: tuple[Sheet, ...]
    pieces: tuple[Piece, ...]
    cuts: tuple[SheetCut, ...]
    cost_pence: int
    bound_pence: int
    proven: bool
    unplaced: tuple[int, ...]
    kerf: float
    trim: float

    @property
    def cut_area_m2(self) -> float:
        """Area of all pieces cut."""
        return math.fsum(place.length * place.width for cut in self.cuts for place in cut.places) / 1e6

    def kept(self, shortest: float = KEPT_SIDE) -> tuple[Sheet, ...]:
        """Remainders whose shorter side is at least so long, as offcuts for the rack, largest first."""
        left = [
            Sheet(rest.length, rest.width, 0, 1, self.stock[cut.sheet].name, offcut=True)
            for cut in self.cuts
            for rest in cut.remainders
            if min(rest.length, rest.width) >= shortest
        ]
        return tuple(sorted(left, key=lambda sheet: -sheet.length * sheet.width))

    @property
    def rack_pence(self) -> int:
        """What of `cost_pence` is for pieces of the rack."""
        return _rack_pence(self.stock, self.used())

    def used(self) -> tuple[int, ...]:
        """How many of each kind of stock the plan takes."""
        return _used(len(self.stock), (cut.sheet for cut in self.cuts))


def slant(kerf: float) -> float:
    """How much more the saw takes at an end of 45 degrees than at a square one, mm."""
    return kerf * (math.sqrt(2) - 1)


def check_saw(kerf: float, trim: float = 0.0) -> None:
    """Raise BadCutError unless kerf and trim are finite and not negative."""
    for value, name in ((kerf, "kerf"), (trim, "trim")):
        if not (math.isfinite(value) and value >= 0):
            raise BadCutError(f"{name} should be nought or more, not {value}")


def _length(value: float, name: str) -> None:
    if not (math.isfinite(value) and value > 0):
        raise BadCutError(f"{name} should be more than nought, not {value}")


def _count(value: int, name: str) -> None:
    if value < 0:
        raise BadCutError(f"{name} should be nought or more, not {value}")


def _rack_pence(stock: Iterable[Bar | Sheet], used: Iterable[int]) -> int:
    return sum(one.cost_pence * count for one, count in zip(stock, used, strict=True) if one.offcut)


def _used(kinds: int, taken: Iterable[int]) -> tuple[int, ...]:
    counts = [0] * kinds
    for kind in taken:
        counts[kind] += 1
    return tuple(counts)
