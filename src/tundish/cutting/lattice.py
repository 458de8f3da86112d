"""The most that one sheet can be worth at given prices, over every way of cutting it from edge to edge, and how to cut it so.

Method: dynamic programming over the lengths at which cuts can lie, Gilmore and Gomory, "Multistage cutting stock problems of two and
more dimensions", Operations Research 13 (1965). Pieces may be repeated at will, so that the value is never too low.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from tundish.cutting.boards import Layout, Nesting, Spot
from tundish.cutting.whole import MOST_ROOM, reachable

if TYPE_CHECKING:
    import numpy as np

    Values = np.ndarray[Any, np.dtype[np.float64]]

_STEPS: Final = 240
_EQUAL: Final = 1e-9
_SCRAP: Final = -1


class Lattice:
    """Every point where a cut may lie, and the worth of every part from the corner to there."""

    def __init__(self, nest: Nesting) -> None:
        import numpy as np

        self.nest = nest
        self.points = [_points(nest, axis) for axis in (0, 1)]
        self._floors = [_floors(points) for points in self.points]
        pairs = [_pairs(points, floor) for points, floor in zip(self.points, self._floors, strict=True)]
        self._beyond, self._rows = _table(pairs[0]), pairs[1]
        ways = [(size, *way) for size, one in enumerate(nest.sizes) for way in one.ways if self._fits(*way)]
        self._ways = [(size, *self._place(long, wide), long, wide) for size, long, wide in ways]
        self._boards = [self._place(board.length, board.width) for board in nest.boards]
        self._empty = np.zeros((len(self.points[1]), len(self.points[0])))

    def values(self, prices: Sequence[float]) -> Values:
        """The most that each part from the corner is worth, row by row of width."""
        import numpy as np

        values = self._empty.copy()
        for size, x, y, *_ in self._ways:
            values[y, x] = max(values[y, x], prices[size])
        for row in range(1, len(values)):
            here = np.maximum(values[row], values[row - 1])
            near, far = self._rows[row]
            if len(near):
                np.maximum(here, (values[near] + values[far]).max(axis=0), out=here)
            values[row] = _closed(here, self._beyond)
        return values

    def worths(self, values: Values) -> list[float]:
        """What a whole sheet of each kind is worth."""
        return [float(values[y, x]) for x, y in self._boards]

    def layout(self, values: Values, prices: Sequence[float], kind: int) -> Layout:
        """A sheet of this kind cut so that it is worth the most."""
        board = self.nest.boards[kind]
        spots: list[Spot] = []
        rests: list[Spot] = []
        parts = [(0, 0, board.length, board.width)]
        while parts:
            part = parts.pop()
            piece = self._piece(values, prices, part)
            if piece is None:
                rests.append(Spot(_SCRAP, *part))
            elif len(piece) == 1:
                size, long, wide = piece[0]
                x, y, length, width = part
                spots.append(Spot(size, x, y, long, wide))
                over = ((x + long, y, length - long, width), (x, y + wide, long, width - wide))
                rests += [Spot(_SCRAP, *rest) for rest in over]
            else:
                parts += piece
        saw = self.nest.kerf
        kept = tuple(rest for rest in rests if rest.length > saw and rest.width > saw)
        counts = [0] * len(self.nest.sizes)
        for spot in spots:
            counts[spot.size] += 1
        return Layout(kind, tuple(counts), tuple(spots), kept, self.nest.gain(kind, kept))

    def _fits(self, length: int, width: int) -> bool:
        return length < len(self._floors[0]) and width < len(self._floors[1])

    def _place(self, length: int, width: int) -> tuple[int, int]:
        floor = self._floors
        return int(floor[0][min(length, len(floor[0]) - 1)]), int(floor[1][min(width, len(floor[1]) - 1)])

    def _piece(self, values: Values, prices: Sequence[float], part: tuple[int, int, int, int]) -> list[Any] | None:
        """Nothing, the one piece that is cut from a part, or the two parts that a cut makes of it."""
        import numpy as np

        x, y, length, width = part
        column, row = self._place(length, width)
        worth = float(values[row, column]) - _EQUAL * (1 + float(values[row, column]))
        if worth <= _EQUAL:
            return None
        for size, _, _, long, wide in self._ways:
            if prices[size] >= worth and long <= length and wide <= width:
                return [(size, long, wide)]
        near = np.arange(1, column)
        far = self._floors[0][length - self.points[0][near]]
        found = np.flatnonzero(values[row, near] + values[row, far] >= worth)
        if len(found):
            at = int(self.points[0][near[found[0]]])
            return [(x, y, at, width), (x + at, y, length - at, width)]
        near = np.arange(1, row)
        far = self._floors[1][width - self.points[1][near]]
        found = np.flatnonzero(values[near, column] + values[far, column] >= worth)
        at = int(self.points[1][near[found[0]]])
        return [(x, y, length, at), (x, y + at, length, width - at)]


def fine(nest: Nesting, points: int) -> bool:
    """Whether there are no more points where cuts may meet."""
    most = max(max(board.length, board.width) for board in nest.boards)
    return most <= MOST_ROOM and len(_points(nest, 0)) * len(_points(nest, 1)) <= points


def coarse(nest: Nesting, *, over: bool, steps: int = _STEPS) -> tuple[Nesting, int]:
    """The problem in larger steps, and how many units each is.

    Pieces are taken too small and sheets too large, so that nothing worth more is missed; or, `over`, the other way, so that
    whatever fits in steps fits.
    """
    most = max(max(board.length, board.width) for board in nest.boards)
    step = max(1, -(-most // steps))

    def taken(length: int, *, more: bool) -> int:
        return max(1, -(-length // step) if more else length // step)

    sizes = tuple(
        replace(size, ways=tuple((taken(long, more=over), taken(wide, more=over)) for long, wide in size.ways)) for size in nest.sizes
    )
    boards = tuple(
        replace(board, length=taken(board.length, more=not over), width=taken(board.width, more=not over)) for board in nest.boards
    )
    return replace(nest, sizes=sizes, boards=boards), step


def in_full(nest: Nesting, rough: Nesting, layout: Layout, step: int) -> Layout:
    """A layout in steps as one of the problem itself; what a step was too large by is left over beside a piece and along the sheet."""
    spots = []
    rests = [Spot(_SCRAP, *(value * step for value in rest[1:])) for rest in layout.rests]
    for spot in layout.spots:
        way = rough.sizes[spot.size].ways.index((spot.length, spot.width))
        spots.append(Spot(spot.size, spot.x * step, spot.y * step, *nest.sizes[spot.size].ways[way]))
        rests += _round(spots[-1], spot.length * step, spot.width * step)
    board, taken = nest.boards[layout.kind], rough.boards[layout.kind]
    rests += _round(Spot(_SCRAP, 0, 0, taken.length * step, taken.width * step), board.length, board.width)
    kept = tuple(rest for rest in rests if rest.length > nest.kerf and rest.width > nest.kerf)
    return Layout(layout.kind, layout.counts, tuple(spots), kept, nest.gain(layout.kind, kept))


def _round(one: Spot, length: int, width: int) -> tuple[Spot, Spot]:
    """What is left of a part so large with something in its corner: beside it all the way up, and above it."""
    beside = Spot(_SCRAP, one.x + one.length, one.y, length - one.length, width)
    return beside, Spot(_SCRAP, one.x, one.y + one.width, one.length, width - one.width)


def _points(nest: Nesting, axis: int) -> Any:
    import numpy as np

    room = max((board.length, board.width)[axis] for board in nest.boards)
    sides = [(way[axis], size.count) for size in nest.sizes for way in size.ways]
    reach = reachable([side for side, _ in sides], [room // side for side, _ in sides], room)
    bits = np.unpackbits(np.frombuffer(reach.to_bytes(room // 8 + 1, "little"), np.uint8), bitorder="little")[: room + 1]
    return np.flatnonzero(bits)


def _floors(points: Any) -> Any:
    """For every length the last point that is no further."""
    import numpy as np

    marks = np.zeros(int(points[-1]) + 1, np.int32)
    marks[points[1:]] = 1
    return np.cumsum(marks)


def _pairs(points: Any, floors: Any) -> list[tuple[Any, Any]]:
    """For every point the cuts up to its middle, and what is then left beyond each."""
    import numpy as np

    made = []
    for at in points:
        near = np.arange(1, int(np.searchsorted(points, at // 2, side="right")))
        made.append((near, floors[at - points[near]]))
    return made


def _table(pairs: Sequence[tuple[Any, Any]]) -> Any:
    """What is left beyond each cut, a row for every point; where there is no cut, a place past the last."""
    import numpy as np

    table = np.full((len(pairs), max(len(near) for near, _ in pairs)), len(pairs))
    for row, (near, far) in enumerate(pairs):
        table[row, : len(near)] = far
    return table


def _closed(values: Values, beyond: Any) -> Values:
    """A row with every cut across it made, and again until no more is gained."""
    import numpy as np

    values = np.maximum.accumulate(values)
    cuts = beyond.shape[1]
    while cuts:
        best = (np.append(values, -np.inf)[beyond] + values[1 : cuts + 1]).max(axis=1)
        more = np.maximum.accumulate(np.maximum(values, best))
        if (more <= values + _EQUAL).all():
            break
        values = more
    return values
