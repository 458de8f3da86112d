"""What cut tiles are cut from: one another's offcuts first, then a tile of its own for each that finds none."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Final

from tundish.layout.tiles import Tiling

SAW: Final = 2.5
"""What a tile saw takes, mm: from memory; a score-and-snap cutter takes nothing."""
_MOST: Final = 500
"""Cut tiles fitted one by one; of more, only equal ones share a tile."""
_Room = tuple[float, float]


def cut_from(cuts: Sequence[_Room], tiling: Tiling) -> int:
    """How many tiles the cut ones, each (width, height) as it lies, are cut from; none is turned, so that a pattern runs on."""
    tile = (tiling.width, tiling.height)
    if len(cuts) > _MOST:
        return sum(-(-count // _from_one(cut, tile)) for cut, count in Counter(cuts).items())
    free: list[_Room] = []
    taken = 0
    for cut in sorted(cuts, key=lambda one: (-one[0] * one[1], -one[0])):
        room = min((one for one in free if _fits(cut, one)), key=lambda one: _tightness(cut, one), default=None)
        if room is None:
            room = tile
            taken += 1
        else:
            free.remove(room)
        free += _left(room, cut)
    return taken


def _from_one(cut: _Room, tile: _Room) -> int:
    return max(1, int((tile[0] + SAW) // (cut[0] + SAW)) * int((tile[1] + SAW) // (cut[1] + SAW)))


def _fits(cut: _Room, room: _Room) -> bool:
    return cut[0] <= room[0] and cut[1] <= room[1]


def _tightness(cut: _Room, room: _Room) -> tuple[float, float]:
    """How little is left beside or above, then how small the offcut is."""
    return min(room[0] - cut[0], room[1] - cut[1]), room[0] * room[1]


def _left(room: _Room, cut: _Room) -> list[_Room]:
    """The two offcuts, the larger as large as can be."""
    beside, above = room[0] - cut[0] - SAW, room[1] - cut[1] - SAW
    wide = beside * room[1] >= above * room[0]
    parts = ((beside, room[1] if wide else cut[1]), (cut[0] if wide else room[0], above))
    return [part for part in parts if min(part) > 0]
