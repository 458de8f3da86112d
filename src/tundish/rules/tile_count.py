"""How many tiles the faces of a pre-wall take."""

from __future__ import annotations

import math

from tundish.figure import Figure, number, round_up, total
from tundish.layout.room import Face, Room
from tundish.rules.amounts import whole_spaces


def whole_tiles(room: Room) -> Figure:
    """Tiles for every face, a cut one counted as a whole one, before breakage.

    A shelf or return narrower than a tile is covered with strips, as many from one tile as it gives.
    """
    joint = room.figures["joint"]
    wide, high = room.tile.size("width"), room.tile.size("height")
    modules = ((wide + joint).named("Tile and joint across"), (high + joint).named("Tile and joint up"))
    return total([_face(one, (wide, high), modules, joint) for one in room.faces], "Tiles")


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
