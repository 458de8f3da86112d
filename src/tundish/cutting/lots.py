"""Lists of more pieces than one plan can look over: planned in lots, each with its share of every size, from what stock is left.

A lot is small, so time and memory grow with the number of pieces only; each lot may leave one bar or sheet half used.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final, TypeVar

from tundish.cutting.plan import Bar, BarCut, BarPlan, Piece, Sheet, SheetCut, SheetPlan

MOST_AT_ONCE: Final = 10_000
"""Pieces that are planned together."""
_SIZES: Final = 60
_FEW_SIZES: Final = 2_000
_MANY_SIZES: Final = 500
_Stock = TypeVar("_Stock", Bar, Sheet)
_Lot = list[tuple[int, int]]
"""Pieces by their place, and how many of each."""


def at_once() -> bool:
    """The first plan is the answer: so many lots leave no time for a second look at each."""
    return True


def many(pieces: Sequence[Piece]) -> bool:
    """Whether there are too many pieces for one plan."""
    return sum(piece.count for piece in pieces) > MOST_AT_ONCE


def bars_in_lots(pieces: Sequence[Piece], stock: Sequence[Bar], plan: Callable[..., BarPlan]) -> Iterator[BarPlan]:
    """The plans of all lots; places of pieces and stock are those of the whole list."""
    left = tuple(stock)
    for lot in _lots(pieces, _each(pieces)):
        made = plan(tuple(replace(pieces[place], count=count) for place, count in lot), left)
        left = _less(left, made.used())
        cuts = tuple(BarCut(cut.bar, tuple(lot[one][0] for one in cut.pieces), cut.remainder) for cut in made.cuts)
        yield replace(made, cuts=cuts, unplaced=tuple(lot[one][0] for one in made.unplaced))


def sheets_in_lots(pieces: Sequence[Piece], stock: Sequence[Sheet], plan: Callable[..., SheetPlan]) -> Iterator[SheetPlan]:
    """The same for sheets."""
    left = tuple(stock)
    for lot in _lots(pieces, _each(pieces)):
        made = plan(tuple(replace(pieces[place], count=count) for place, count in lot), left)
        left = _less(left, made.used())
        cuts = tuple(
            SheetCut(cut.sheet, tuple(replace(one, piece=lot[one.piece][0]) for one in cut.places), cut.remainders) for cut in made.cuts
        )
        yield replace(made, cuts=cuts, unplaced=tuple(lot[one][0] for one in made.unplaced))


def _each(pieces: Sequence[Piece]) -> int:
    """Pieces in a lot: what a plan takes grows with its pieces times its sizes."""
    return _FEW_SIZES if len({(piece.length, piece.width, piece.turn) for piece in pieces}) <= _SIZES else _MANY_SIZES


def _lots(pieces: Sequence[Piece], each: int) -> list[_Lot]:
    """The pieces dealt out, from the longest, so that every lot has its share of every size."""
    many_lots = max(1, -(-sum(piece.count for piece in pieces) // each))
    lots: list[_Lot] = [[] for _ in range(many_lots)]
    turn = 0
    for place in sorted(range(len(pieces)), key=lambda one: (-pieces[one].length * max(1.0, pieces[one].width), -pieces[one].length)):
        share, over = divmod(pieces[place].count, many_lots)
        more = {(turn + step) % many_lots for step in range(over)}
        for lot in range(many_lots) if share else sorted(more):
            lots[lot].append((place, share + (lot in more)))
        turn += over
    return lots


def _less(stock: tuple[_Stock, ...], used: Sequence[int]) -> tuple[_Stock, ...]:
    return tuple(one if one.count is None else replace(one, count=one.count - taken) for one, taken in zip(stock, used, strict=True))
