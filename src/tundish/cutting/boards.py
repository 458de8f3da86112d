"""The sheets and pieces of a cut list in whole units: equal ones merged, kerf and trim folded in, in an order of its own.

On both axes a piece takes its size and one kerf, a sheet gives its size less the trim and one kerf, as in `whole` for bars.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final, NamedTuple

from tundish.cutting.amounts import Kind, Load, step_of
from tundish.cutting.plan import KEPT_SIDE, Piece, Sheet
from tundish.cutting.until import Stop, never
from tundish.cutting.whole import MOST_ROOM, TENTHS, down, reachable, up

_WORTH: Final = 1.3
"""Power of the area of a remainder that it is worth: over one, so that one large beats two small."""


class Spot(NamedTuple):
    """Where a piece of some size lies, or (size below nought) where nothing does."""

    size: int
    x: int
    y: int
    length: int
    width: int


class Layout(NamedTuple):
    """One sheet cut: its kind, how many pieces of each size, where they lie, what is left, and what that is worth."""

    kind: int
    counts: tuple[int, ...]
    spots: tuple[Spot, ...]
    rests: tuple[Spot, ...]
    gain: float


@dataclass(frozen=True, slots=True)
class Size:
    """Equal pieces: how many, the ways in which they may lie, and their places among the pieces."""

    area: int
    count: int
    ways: tuple[tuple[int, int], ...]
    copies: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Board:
    """One kind of sheet, in units; `sheets` its places in the stock, empty for stock that is not there."""

    length: int
    width: int
    cost: int
    count: int | None
    offcut: bool
    sheets: tuple[tuple[int, int | None], ...]
    worth: float
    fill: int
    """The most square units that pieces can take of it: no side is cut fuller than some of them make it together."""

    @property
    def area(self) -> int:
        """Square units."""
        return self.length * self.width


@dataclass(frozen=True, slots=True)
class Nesting:
    """The problem in units: sizes from the largest, boards from the smallest."""

    sizes: tuple[Size, ...]
    boards: tuple[Board, ...]
    kerf: int
    stop: Stop = field(default=never, compare=False)

    @property
    def demand(self) -> tuple[int, ...]:
        """How many pieces of each size."""
        return tuple(size.count for size in self.sizes)

    def load(self) -> Load:
        """The area that all pieces take, and the boards that it may come from."""
        kinds = tuple(Kind(board.cost, board.count, board.fill) for board in self.boards)
        return Load(sum(size.area * size.count for size in self.sizes), kinds)

    def cost(self, plan: Iterable[Layout]) -> int:
        """What the sheets of a plan cost, pence."""
        return sum(self.boards[layout.kind].cost for layout in plan)

    def gain(self, kind: int, rests: Iterable[Spot]) -> float:
        """Worth of what is left less worth of the rack piece taken."""
        left = sum(worth((rest.length - self.kerf) / TENTHS, (rest.width - self.kerf) / TENTHS) for rest in rests)
        return left - (self.boards[kind].worth if self.boards[kind].offcut else 0.0)


def worth(length: float, width: float) -> float:
    """What a remainder of so many mm is worth: nothing when narrow, then more than in proportion to its area."""
    return (length * width / 1e6) ** _WORTH if min(length, width) >= KEPT_SIDE else 0.0


def as_nesting(pieces: Sequence[Piece], stock: Sequence[Sheet], kerf: float, trim: float) -> tuple[Nesting, tuple[int, ...]]:
    """The problem in units, and the pieces too large for any sheet."""
    saw, edge = up(kerf), 2 * trim
    rooms = [(down(sheet.length - edge) + saw, down(sheet.width - edge) + saw) if sheet.count != 0 else (0, 0) for sheet in stock]
    copies: defaultdict[tuple[tuple[int, int], ...], list[int]] = defaultdict(list)
    unplaced: list[int] = []
    for index, piece in enumerate(pieces):
        ways = _ways(up(piece.length) + saw, up(piece.width) + saw, turn=piece.turn)
        fits = any(length <= room[0] and width <= room[1] for length, width in ways for room in rooms)
        (copies[ways] if fits else unplaced).extend([index] * piece.count)
    sizes = [Size(ways[0][0] * ways[0][1], len(found), ways, tuple(found)) for ways, found in copies.items() if found]
    sizes.sort(key=lambda size: (-size.area, size.ways))
    boards = _boards(sizes, stock, rooms)
    return Nesting(tuple(sizes), (*boards, *_missing(sizes, boards)), saw), tuple(unplaced)


def _ways(length: int, width: int, *, turn: bool) -> tuple[tuple[int, int], ...]:
    """The ways in which a piece may lie, the same for every piece of that size."""
    return tuple(sorted({(length, width), (width, length)}, reverse=True)) if turn else ((length, width),)


def _boards(sizes: Sequence[Size], stock: Sequence[Sheet], rooms: Sequence[tuple[int, int]]) -> tuple[Board, ...]:
    alike: defaultdict[tuple[int, int, int, bool], list[int]] = defaultdict(list)
    for index, sheet in enumerate(stock):
        if any(_takes(*rooms[index], size) for size in sizes):
            alike[(*rooms[index], sheet.cost_pence, sheet.offcut)].append(index)
    boards = []
    for (length, width, cost, offcut), indices in alike.items():
        sheets = tuple((index, stock[index].count) for index in indices)
        counts = [count for _, count in sheets if count is not None]
        count = sum(counts) if len(counts) == len(sheets) else None
        whole = worth(stock[indices[0]].length, stock[indices[0]].width)
        boards.append(Board(length, width, cost, count, offcut, sheets, whole, _fill(sizes, (length, width))))
    return tuple(sorted(boards, key=lambda board: (board.area, board.length, board.cost, board.offcut)))


def _fill(sizes: Sequence[Size], room: tuple[int, int]) -> int:
    """The pieces of a sheet can always be pushed into its corner, and then each edge lies at a sum of their sides."""
    able = [size for size in sizes if _takes(*room, size)]
    together = sum(size.area * size.count for size in able)
    if max(room) > MOST_ROOM:
        return min(together, room[0] * room[1])
    counts = [size.count for size in able for _ in size.ways]
    sides = [reachable([way[axis] for size in able for way in size.ways], counts, room[axis]).bit_length() - 1 for axis in (0, 1)]
    return min(together, sides[0] * sides[1])


def _missing(sizes: Sequence[Size], boards: Sequence[Board]) -> tuple[Board, ...]:
    """Where stock could run out, a sheet that is not there, at a price that no other choice of sheets comes to."""
    endless = [board for board in boards if board.count is None]
    if all(any(_takes(board.length, board.width, size) for board in endless) for size in sizes):
        return ()
    length, width = max(board.length for board in boards), max(board.width for board in boards)
    step = step_of([Kind(board.cost, board.count, board.fill) for board in boards])
    dear = (max(board.cost for board in boards) // step * sum(size.count for size in sizes) + 1) * step
    return (Board(length, width, dear, None, offcut=False, sheets=(), worth=0.0, fill=length * width),)


def _takes(length: int, width: int, size: Size) -> bool:
    return any(long <= length and wide <= width for long, wide in size.ways)
