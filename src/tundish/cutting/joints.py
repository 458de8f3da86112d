"""Pieces longer than any bar: joined where a joint may lie, or the ways out of it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.cutting.plan import BadCutError, Piece

_NEAR: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Joints:
    """What a joint costs, and where it may lie along a piece, mm: at these places (uprights), or anywhere where there are none (pipe)."""

    cost_pence: int
    at: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        if self.cost_pence < 0 or not all(math.isfinite(place) and place > 0 for place in self.at):
            raise BadCutError("a joint has a price of nought or more and lies along the piece")


def joined(piece: Piece, longest: float, joints: Joints) -> tuple[Piece, ...]:
    """The piece in as few parts as bars of this length allow, marked a, b…; nothing where no joint can lie so that they do.

    Anywhere, all parts but the last are whole bars; at uprights, each part reaches as far as it can.
    """
    if piece.length <= longest:
        return (piece,)
    places = _places(piece.length, longest, joints.at)
    if not places:
        return ()
    ends = (0.0, *places, piece.length)
    lengths = [after - before for before, after in itertools.pairwise(ends)]
    return tuple(replace(piece, mark=f"{piece.mark}{_letters(part)}", length=length) for part, length in enumerate(lengths))


def ways_out(piece: Piece, longest: float, joints: Joints | None = None) -> Iterator[str]:
    """What can be done about a piece longer than any bar, each in a sentence."""
    parts = joined(piece, longest, joints) if joints and longest > 0 else ()
    if joints and parts:
        many = len(parts) - 1
        lengths = " + ".join(f"{part.length:g}" for part in parts)
        yield f"Join {lengths}: {many} {'joint' if many == 1 else 'joints'}, £{many * joints.cost_pence / 100:.2f}."
    elif joints:
        yield f"No joint can lie so that every part is {longest:g} mm or less: add an upright."
    yield f"Order a bar of {piece.length:g} mm or longer."


def _places(length: float, longest: float, at: Sequence[float]) -> tuple[float, ...]:
    made: list[float] = []
    last = 0.0
    while length - last > longest + _NEAR:
        able = [place for place in at if last < place <= last + longest + _NEAR and place < length] if at else [last + longest]
        if not able or longest <= 0:
            return ()
        last = max(able)
        made.append(last)
    return tuple(made)


def _letters(part: int) -> str:
    return chr(ord("a") + part) if part < 26 else f"-{part + 1}"  # noqa: PLR2004 - letters of the alphabet
