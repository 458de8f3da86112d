"""How many tiles to buy: cut tiles taken from one another's offcuts by a real plan, breakage, whole boxes, trims and mitres."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from tundish.cutting.plan import BadCutError, Effort, Piece, Sheet, SheetPlan
from tundish.cutting.sheets import plan_sheets
from tundish.cutting.tiles import SetOut

SAW: Final = 2.5
"""What a tile saw takes, mm: from memory; a score-and-snap cutter takes nothing."""
_MOST_CUT: Final = 400
"""Cut tiles that are packed by the best plan; more are packed at once."""


@dataclass(frozen=True, slots=True)
class TileCount:
    """The tiles of some faces: whole ones, those that the cut ones come from, breakage, and what is bought.

    `boxes` nought: sold singly. `spare` is what is left of the boxes; all should be of one batch.
    """

    whole: int
    cut: int
    cut_from: int
    breakage: int
    boxes: int
    spare: int
    plan: SheetPlan

    @property
    def needed(self) -> int:
        """Tiles used and broken."""
        return self.whole + self.cut_from + self.breakage


def count_tiles(laid: Sequence[SetOut], breakage: float, box: int = 0, *, turn: bool = False, kerf: float = SAW) -> TileCount:
    """The tiles that faces take together; `breakage` is a share, `box` the tiles in one, `turn` lets an offcut lie either way."""
    if not (math.isfinite(breakage) and 0 <= breakage <= 1 and box >= 0):
        raise BadCutError(f"a breakage of {breakage} and boxes of {box} cannot be counted with")
    pieces = tuple(
        Piece(f"{face.face.name} {tile.row + 1}/{tile.column + 1}", tile.width, width=tile.height, turn=turn)
        for face in laid
        for tile in face.cuts
    )
    size = laid[0].tiling if laid else None
    stock = (Sheet(size.width, size.height, 1, name="tile"),) if size else ()
    effort = Effort.BEST if len(pieces) <= _MOST_CUT else Effort.QUICK
    plan = plan_sheets(pieces, stock, kerf, effort=effort)
    whole = sum(face.whole for face in laid)
    broken = math.ceil(round((whole + len(plan.cuts)) * breakage, 9))
    needed = whole + len(plan.cuts) + broken
    boxes = math.ceil(needed / box) if box else 0
    return TileCount(whole, len(pieces), len(plan.cuts), broken, boxes, boxes * box - needed if box else 0, plan)


@dataclass(frozen=True, slots=True)
class Edge:
    """An outside edge of the tiling: finished with a trim, or with two mitred tiles, each cut along it."""

    name: str
    length: float
    mitred: bool = False


def mitred_length(edges: Sequence[Edge]) -> float:
    """Length of tile edge to be mitred, mm: both sides of each mitred corner."""
    return 2 * math.fsum(edge.length for edge in edges if edge.mitred)


def trim_pieces(edges: Sequence[Edge]) -> tuple[Piece, ...]:
    """The pieces of trim, as pieces for a plan of bars."""
    return tuple(Piece(edge.name, edge.length) for edge in edges if not edge.mitred and edge.length > 0)
