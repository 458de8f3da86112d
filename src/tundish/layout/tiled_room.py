"""The tiled faces of a pre-wall with the holes that its appliances need, and the best ways to set the tiles out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.cutting.tile_starts import Choice, Line, best_starts
from tundish.cutting.tiles import Corner, Hole, TiledFace, Tiling
from tundish.layout.room import Placed, Room

THROUGH: Final = {"outlet": 110.0, "inlet": 60.0, "waste": 45.0}
"""Holes through tile, mm across: the pipe and room to seal round it (from memory)."""
STUD: Final = 16.0
"""Hole for a fixing stud of 12 mm: from memory."""
_CORNERS: Final[dict[str, Corner]] = {"front": "beside", "return-right": "beside", "return-left": "before", "shelf": "above"}


def tiling_of(room: Room, shift: float = 0.0) -> Tiling:
    """The room's tile as it lies, with its joint."""
    return Tiling(room.tile.size("width").value, room.tile.size("height").value, room.figures["joint"].value, shift)


def tiled_faces(room: Room) -> tuple[TiledFace, ...]:
    """The faces with something to tile, the front first; x from the face's left, z from the finished floor."""
    made = []
    for face in room.faces:
        width, height = face.tiled_width.value, face.tiled_height.value
        if width > 0 and height > 0:
            holes = tuple(_holes(room, width, height)) if face.key == "front" else ()
            made.append(TiledFace(face.name, width, height, holes, _CORNERS.get(face.key, "above")))
    return tuple(sorted(made, key=lambda one: one.name != "Front"))


def tile_choices(room: Room, shift: float = 0.0) -> tuple[Choice, ...]:
    """The best three starts for the faces of a pre-wall, with lines through the middle of every appliance."""
    lines = [Line(each.name, each.centre.value - room.start.value) for each in room.placed]
    return best_starts(tiled_faces(room), tiling_of(room, shift), lines)


def _holes(room: Room, width: float, height: float) -> Iterator[Hole]:
    for placed in room.placed:
        for name, along, level, across in _through(placed):
            x, z = along - room.start.value, level - room.finished_floor.value
            if 0 < x < width and 0 < z < height:
                yield Hole(f"{placed.name} {name}", x, z, across)


def _through(placed: Placed) -> Iterator[tuple[str, float, float, float]]:
    middle = placed.centre.value
    if "studs" in placed.figures and placed.ware.has("stud_spacing"):
        apart = placed.ware.size("stud_spacing").value / 2
        for side, x in (("left stud", middle - apart), ("right stud", middle + apart)):
            yield side, x, placed.figures["studs"].value, STUD
    for name, across in THROUGH.items():
        if name in placed.figures:
            yield name, middle, placed.figures[name].value, across
