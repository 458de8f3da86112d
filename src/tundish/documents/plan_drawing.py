"""The plan: the strip under the elevation, on the same centres, and the whole room. y runs down the page into the room."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish import measure
from tundish.documents import ware_drawing
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Words
from tundish.documents.wall_drawing import WALL, pieces
from tundish.field import must_read
from tundish.layout.room import Room
from tundish.survey.wall import Opening

BEYOND: Final = 120.0
"""How much floor the strip shows beyond what stands out furthest."""
_WALLS = {"A": (0, 0, 1, 0), "B": (1, 0, 0, -1), "C": (1, -1, -1, 0), "D": (0, -1, 0, 1)}
"""Each wall's left end as shares of (width, depth), and the way it runs seen from inside."""


def strip(room: Room) -> Drawing:
    """The pre-wall from above with what hangs on it."""
    out = max((placed.ware.size("projection").value for placed in room.placed), default=300.0)
    deep = room.figures["finished_face"].value + out + BEYOND
    width = room.width.value
    sides = (Box(-WALL, -deep, WALL, deep, "wall"), Box(width, -deep, WALL, deep, "wall"))
    marks = (*sides, *_void(room))
    left = -WALL - 150
    return Drawing("Plan, same scale, same centres", marks, (left, -deep, width + WALL - left, deep + WALL), pieces(room))


def whole_room(room: Room) -> Drawing:
    """The whole room from above: doors with their swing, the pre-wall, the ware and the clear space each asks for."""
    width = room.width.value
    depth = must_read(room.plan.survey.room, "depth").value
    walls = (
        Box(-WALL, -depth - WALL, WALL, depth + 2 * WALL, "wall"),
        Box(width, -depth - WALL, WALL, depth + 2 * WALL, "wall"),
        Box(0, -depth - WALL, width, WALL, "wall"),
    )
    marks: list[Mark] = [*walls, *_void(room)]
    for opening in room.plan.survey.openings:
        marks += _opening(opening, width, depth)
    marks.append(Dimension(0, -depth - WALL - 60, width, -depth - WALL - 60, measure.show_length(width)))
    marks.append(Dimension(-WALL - 60, -depth, -WALL - 60, 0, measure.show_length(depth)))
    return Drawing(
        "Whole room", tuple(marks), (-WALL - 150, -depth - WALL - 150, width + 2 * WALL + 150, depth + 2 * WALL + 150), pieces(room)
    )


def _void(room: Room) -> Iterator[Mark]:
    width, start, run = room.width.value, room.start.value, room.run.value
    depth, face = room.depth.value, room.figures["finished_face"].value
    yield Box(-WALL, 0, width + 2 * WALL, WALL, "wall")
    stack_x, stack_y = room.figures["stack"].value, room.figures["stack_from_wall"].value
    yield Ellipse(stack_x, -stack_y, 55, 55, "soil", "stack")
    for pipe in room.pipes_of("soil", "waste"):
        (x1, _), (x2, _) = pipe.points[0], pipe.points[-1]
        half = pipe.size / 2
        yield Box(min(x1, x2), -stack_y - half, abs(x2 - x1), pipe.size, "soil", piece=pipe.key)
    for member in room.members:
        if member.along == "z":
            yield Box(member.x, -depth, member.section[0], member.section[1], "steel", piece=member.mark)
        elif member.along == "y":
            yield Box(member.x, -member.y - member.length.value, member.section[0], member.length.value, "steel", piece=member.mark)
    for placed in room.placed:
        leg, behind = placed.frame.size("leg").value, placed.frame.size("depth").value
        yield Box(placed.left, -depth, leg, behind, "steel", piece=placed.key)
        yield Box(placed.right - leg, -depth, leg, behind, "steel", piece=placed.key)
        yield Line(placed.centre.value, 0, placed.centre.value, -face, "datum", piece=placed.key)
    yield Box(start, -face, run, face - depth, "board")
    for placed in room.placed:
        yield from ware_drawing.above(placed, face)
    yield Dimension(-WALL - 70, -face, -WALL - 70, 0, measure.show_length(face), "", "finished_face", room.depth.tbc)


def _opening(opening: Opening, width: float, depth: float) -> Iterator[Mark]:
    share_x, share_y, along_x, along_y = _WALLS[opening.wall]
    size, from_left = must_read(opening, "width").value, must_read(opening, "from_left").value
    x, y = share_x * width + along_x * from_left, share_y * depth + along_y * from_left
    end = (x + along_x * size, y + along_y * size)
    yield Line(x, y, *end, "ware", f"opening {opening.wall}")
    if opening.kind == "door" and opening.swing in {"into the room", "out of the room"}:
        # Into the room is to the right of the way a wall runs, seen from above.
        inward = 1 if opening.swing == "into the room" else -1
        hinge, other = ((x, y), end) if opening.hinge == "left" else (end, (x, y))
        leaf = (hinge[0] + inward * along_y * size, hinge[1] - inward * along_x * size)
        yield Line(*hinge, *leaf, "room")
        yield Shape((hinge, leaf, _corner(leaf, other, hinge), other), "room", filled=False)
    yield Words((x + end[0]) / 2, (y + end[1]) / 2, opening.kind, 2.2, "ink")


def _corner(leaf: tuple[float, float], other: tuple[float, float], hinge: tuple[float, float]) -> tuple[float, float]:
    """A point on the door's arc, half way round."""
    reach = 0.7071
    return (hinge[0] + (leaf[0] - hinge[0] + other[0] - hinge[0]) * reach, hinge[1] + (leaf[1] - hinge[1] + other[1] - hinge[1]) * reach)
