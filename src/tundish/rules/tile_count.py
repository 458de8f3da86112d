"""How many tiles the faces of a pre-wall take."""

from __future__ import annotations

import math
from typing import Final

from tundish.figure import Figure, number, round_up, total
from tundish.layout.once import once
from tundish.layout.room import Face, Room
from tundish.layout.tile_cuts import cut_from
from tundish.layout.tiled_room import Size, tiled, tiled_as, tiling_of
from tundish.rules.amounts import whole_spaces
from tundish.rules.joints import with_joint

_SIZES: Final[tuple[Size, ...]] = ("low", "value", "high")


@once
def whole_tiles(room: Room) -> Figure:
    """Tiles for every face as they are set out, cut ones taken from one another's offcuts, before breakage.

    The working counts every face in whole columns and courses first, a shelf or return narrower than a tile in strips, and then says
    how far the set-out differs: by what the start adds at the ends, and by what offcuts save.
    """
    joint = room.figures["joint"]
    wide, high = room.tile.size("width"), room.tile.size("height")
    modules = with_joint(room)
    by_face = total([_face(one, (wide, high), modules, joint) for one in room.faces], "Tiles in whole columns and courses", unit="each")
    return _as_set_out(room, by_face)


def _as_set_out(room: Room, by_face: Figure) -> Figure:
    laid = tiled(room)
    if laid is None:
        return by_face.named("Tiles")
    apart = [_counted(room, size) - getattr(by_face, size) for size in (_SIZES if by_face.low < by_face.high else ("value",))]
    usual = apart[len(apart) // 2]
    note = f"Set out from: {laid.start.name}. Cut tiles come from one another's offcuts."
    sign = -1.0 if usual < 0 else 1.0
    low, high = sorted((sign * min(apart), sign * max(apart)))
    differs = Figure(sign * usual, low, high, "each", "Less by offcuts" if usual < 0 else "More by the start", note=note)
    return (by_face + differs if usual >= 0 else by_face - differs).named("Tiles")


def _counted(room: Room, size: Size) -> float:
    """Whole tiles and the tiles that the cut ones come from."""
    laid = tiled_as(room, size)
    cuts = [(tile.width, tile.height) for face in laid for tile in face.cuts]
    return float(sum(face.whole for face in laid) + cut_from(cuts, tiling_of(room)))


def _face(face: Face, tile: tuple[Figure, Figure], modules: tuple[Figure, Figure], joint: Figure) -> Figure:
    columns = whole_spaces(face.tiled_width + joint, modules[0], "Tiles across")
    rows = whole_spaces(face.tiled_height + joint, modules[1], "Tiles up")
    one_each = number(1, "each", face.name)
    if face.key == "shelf" and face.tiled_height.value < tile[1].value:
        return round_up(columns / _strips(tile[1], face.tiled_height), 1.0, face.name) * one_each
    if face.key.startswith("return") and face.tiled_width.value < tile[0].value:
        return round_up(rows / _strips(tile[0], face.tiled_width), 1.0, face.name) * one_each
    return (columns * rows * one_each).named(face.name)


def _strips(tile: Figure, deep: Figure) -> Figure:
    """How many strips as wide as the face is deep one tile gives."""
    fewest, usual, most = (float(max(1, math.floor(tile.value / each))) for each in (deep.high, deep.value, deep.low))
    return Figure(usual, fewest, most, "", "Strips from one tile", tbc=deep.tbc, note="Tile by depth of the face, rounded down.")
