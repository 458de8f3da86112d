"""One sheet filled by cuts from edge to edge: each piece goes into a corner of a free rectangle, which is then cut in two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.cutting.boards import Board, Layout, Nesting, Spot

_SCRAP: Final = -1
_MULTIPLIER: Final = 6364136223846793005
_INCREMENT: Final = 1442695040888963407
_WORD: Final = 1 << 64


class Dice:
    """A fixed run of numbers below one that look thrown (Knuth's linear congruential sequence): the same every time."""

    def __init__(self, run: int = 0) -> None:
        self._state = 1 + run

    def throw(self) -> float:
        """The next number, from 0 up to 1."""
        self._state = (self._state * _MULTIPLIER + _INCREMENT) % _WORD
        return (self._state >> 11) / (1 << 53)


@dataclass(frozen=True, slots=True)
class Style:
    """How a sheet is filled: sizes and their ways in the order they are tried, and how often to do otherwise than the rule."""

    order: tuple[tuple[int, tuple[tuple[int, int], ...]], ...]
    closest: bool = False
    """Of all sizes take the one that leaves the narrowest strip, not the first that fits."""
    astray: float = 0.0
    """Share of the cuts that go the other way."""


def fill(nest: Nesting, kind: int, left: Sequence[int], style: Style, dice: Dice) -> Layout:
    """A sheet of this kind filled with as much of what is left to cut as the style finds room for."""
    more = dict(enumerate(left))
    style = replace(style, order=tuple([one for one in style.order if left[one[0]]]))
    spots, rests = cut_up(nest.boards[kind], more, style, dice)
    return laid(nest, kind, spots, rests)


def cut_up(board: Board, left: dict[int, int], style: Style, dice: Dice) -> tuple[list[Spot], list[Spot]]:
    """Where pieces lie in a sheet, and what is left of it; they are taken from `left`, which has every size of the style's order."""
    free = [(board.area, 0, 0, board.length, board.width)]
    shortest = min((long for _, ways in style.order for long, _ in ways), default=0)
    narrowest = min((wide for _, ways in style.order for _, wide in ways), default=0)
    spots: list[Spot] = []
    rests: list[Spot] = []
    while free:
        smallest = min(free)
        free.remove(smallest)
        _, x, y, length, width = smallest
        piece = _piece(left, style, dice, (length, width)) if length >= shortest and width >= narrowest else None
        if piece is None:
            rests.append(Spot(_SCRAP, x, y, length, width))
            continue
        size, long, wide = piece
        left[size] -= 1
        spots.append(Spot(size, x, y, long, wide))
        free += _cut(x, y, (length, width), (long, wide), other=dice.throw() < style.astray)
    return spots, rests


def laid(nest: Nesting, kind: int, spots: Sequence[Spot], rests: Sequence[Spot]) -> Layout:
    """A sheet with these pieces and these parts left over."""
    counts = [0] * len(nest.sizes)
    for spot in spots:
        counts[spot.size] += 1
    kept = tuple(rest for rest in rests if rest.length > nest.kerf and rest.width > nest.kerf)
    return Layout(kind, tuple(counts), tuple(spots), kept, nest.gain(kind, kept))


def _piece(left: dict[int, int], style: Style, dice: Dice, room: tuple[int, int]) -> tuple[int, int, int] | None:
    """The size to cut from a free rectangle, as it will lie; the way it lies leaves the narrowest strip."""
    found, length, width = None, *room
    narrowest = length + width
    for size, ways in style.order:
        if not left[size]:
            continue
        for long, wide in ways:
            if long <= length and wide <= width:
                # The most looked at of all lines: comparing in place is twice as quick as min().
                strip = length - long if length - long < width - wide else width - wide  # noqa: FURB136
                if strip < narrowest:
                    found, narrowest = (size, long, wide), strip
        if found and (narrowest == 0 or (not style.closest and dice.throw() >= style.astray)):
            break
    return found


def _cut(x: int, y: int, room: tuple[int, int], piece: tuple[int, int], *, other: bool) -> list[tuple[int, int, int, int, int]]:
    """What is left of a free rectangle beside and above a piece in its corner: the larger of the two as large as can be."""
    beside, above = room[0] - piece[0], room[1] - piece[1]
    across = (beside * room[1] >= room[0] * above) != other
    first = (beside, room[1]) if across else (beside, piece[1])
    second = (piece[0], above) if across else (room[0], above)
    parts = ((x + piece[0], y, *first), (x, y + piece[1], *second))
    return [(length * width, px, py, length, width) for px, py, length, width in parts if length and width]
