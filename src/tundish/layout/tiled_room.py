"""The tiled faces of a pre-wall with the holes that its appliances need, and the best ways to set the tiles out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, Literal

from tundish.layout.design import BONDS
from tundish.layout.footprints import of_prewall, square_ended
from tundish.layout.once import once
from tundish.layout.room import Face, Placed, Room
from tundish.layout.tile_starts import Choice, Line, best_starts, starts
from tundish.layout.tiles import Corner, Gap, Hole, SetOut, TiledFace, Tiling, around, fits
from tundish.layout.walls import Point

THROUGH: Final = {"outlet": 110.0, "inlet": 60.0, "waste": 45.0}
"""Holes through tile, mm across: the pipe and room to seal round it (from memory)."""
STUD: Final = 16.0
"""Hole for a fixing stud of 12 mm: from memory."""
FRONT: Final = "Front"
Size = Literal["value", "low", "high"]
_CORNERS: Final[dict[str, Corner]] = {"front": "beside", "return-right": "beside", "return-left": "before", "shelf": "above"}


def tiling_of(room: Room) -> Tiling:
    """The room's tile as it lies, with its joint and its bond."""
    width, height = room.tile.bare("width"), room.tile.bare("height")
    return Tiling(width, height, room.figures["joint"].value, BONDS[room.plan.design.finish.bond])


def tiled_faces(room: Room, size: Size = "value") -> tuple[TiledFace, ...]:
    """The faces with something to tile, the front first; x from the face's left, z from the finished floor.

    `size`: as they are thought to be, or the least or the most that they may turn out to be.
    """
    made = []
    for face in room.faces:
        width, height = getattr(face.tiled_width, size), getattr(face.tiled_height, size)
        if width > 0 and height > 0:
            front = face.key == "front"
            holes, gaps = (tuple(_holes(room, width, height)), tuple(_gaps(room, face, width))) if front else ((), ())
            outline, offset = _outline(room, face, width, height) if face.key == "shelf" else ((), 0.0)
            made.append(TiledFace(face.name, width, height, holes, _CORNERS.get(face.key, "above"), gaps, None, outline, offset))
    return tuple(sorted(made, key=lambda one: one.name != FRONT))


def _outline(room: Room, shelf: Face, width: float, height: float) -> tuple[tuple[Point, ...], float]:
    """The shape of a shelf that is no rectangle, its front along its foot, and how far right of its left the front's tiles begin."""
    if square_ended(room):
        return (), 0.0
    places, wide, deep = of_prewall(room), shelf.tiled_width.value, shelf.tiled_height.value
    left = min(x for x, _ in places) if room.corner is None else (room.width.value - wide) / 2
    return tuple(((x - left) * width / wide, (deep - y) * height / deep) for x, y in places), left_of(room) - left


def tile_choices(room: Room) -> tuple[Choice, ...]:
    """The best three starts for the faces of a pre-wall, and the one that was chosen if it is another; nothing where none can be laid."""
    faces, tiling = tiled_faces(room), tiling_of(room)
    if not faces or _too_many(faces, tiling):
        return ()
    best = best_starts(faces, tiling, _lines(room))
    chosen = _chosen(room, faces, tiling)
    return best if chosen is None or any(each.start.name == chosen.start.name for each in best) else (*best, chosen)


@once
def tiled(room: Room) -> Choice | None:
    """The faces tiled from the start that was chosen, or from the best; None where there is nothing to tile."""
    faces, tiling = tiled_faces(room), tiling_of(room)
    if not faces or _too_many(faces, tiling):
        return None
    return _chosen(room, faces, tiling) or best_starts(faces, tiling, _lines(room), most=1)[0]


def tiled_as(room: Room, size: Size) -> tuple[SetOut, ...]:
    """The faces at another of their sizes, tiled from the same start."""
    laid = tiled(room)
    if laid is None or size == "value":
        return laid.faces if laid else ()
    faces = tiled_faces(room, size)
    return () if _too_many(faces, tiling_of(room)) else around(faces, tiling_of(room), laid.start)


def _chosen(room: Room, faces: tuple[TiledFace, ...], tiling: Tiling) -> Choice | None:
    wanted = room.plan.design.finish.tile_start
    found = next((start for start in starts(faces, tiling, _lines(room)) if start.name == wanted), None) if wanted else None
    return None if found is None else Choice(found, around(faces, tiling, found))


def _too_many(faces: tuple[TiledFace, ...], tiling: Tiling) -> bool:
    return not all(fits(face, tiling) for face in faces)


def _lines(room: Room) -> list[Line]:
    return [Line(each.name, each.centre.value - left_of(room)) for each in room.placed]


def left_of(room: Room) -> float:
    """Where the front's tiles begin, from the left end of its line: past the face of a pre-wall that it meets there."""
    begins = next((face.tiled_left for face in room.faces if face.key == "front"), None)
    return (begins or room.start).value


def _holes(room: Room, width: float, height: float) -> Iterator[Hole]:
    for placed in room.placed:
        for name, along, level, across in through(placed):
            x, z = along - left_of(room), level - room.finished_floor.value
            if 0 < x < width and 0 < z < height:
                yield Hole(f"{placed.name} {name}", x, z, across)


def _gaps(room: Room, front: Face, width: float) -> Iterator[Gap]:
    """What of the front is not tiled: behind a lower pre-wall in its corner, and where it opens."""
    for end, deep, high in front.hidden:
        yield Gap(0.0 if end == 0 else width - deep.value, 0.0, deep.value, high.value)
    for each in room.recesses:
        if each.hatch is None or not each.hatch.has("tile"):
            yield Gap(each.left.value - left_of(room), each.bottom.value - room.finished_floor.value, each.width.value, each.height.value)


def through(placed: Placed) -> Iterator[tuple[str, float, float, float]]:
    """What of an appliance goes through the front: its name, along the wall, above the bare floor, and how wide its hole is."""
    middle = placed.centre.value
    if "studs" in placed.figures and placed.ware.has("stud_spacing"):
        apart = placed.ware.bare("stud_spacing") / 2
        for side, x in (("left stud", middle - apart), ("right stud", middle + apart)):
            yield side, x, placed.figures["studs"].value, STUD
    for name, across in THROUGH.items():
        if name in placed.figures:
            yield name, middle, placed.figures[name].value, across
