"""The elevation of a pre-wall: what is behind, what is seen, and every width, to scale. One drawing for window and paper."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tundish import measure
from tundish.documents import ware_drawing
from tundish.documents.drawing import Box, Dimension, Drawing, Line, Mark, Shape, Style, Words
from tundish.layout.room import Member, PipeRun, Placed, Room

WALL: Final = 40.0
"""How much of the existing wall and floor is drawn round the room."""
ABOVE: Final = 120.0
"""What is drawn above a part-height pre-wall."""
PIPES: Final[dict[str, Style]] = {"soil": "soil", "waste": "soil", "hot": "hot", "cold": "cold"}


@dataclass(frozen=True, slots=True)
class Show:
    """What is drawn: each layer can be left out. The client's view has neither steel nor pipes."""

    tiles: bool = True
    steel: bool = True
    pipes: bool = True
    ware: bool = True
    marks: bool = True
    sizes: bool = True


CLIENT_VIEW: Final = Show(steel=False, pipes=False, marks=False, sizes=False)


def elevation(room: Room, show: Show = Show()) -> Drawing:
    """Wall A, looking at it: x from its left end, y up from the bare floor."""
    width, head = room.width.value, view_height(room)
    floor = room.finished_floor.value
    outline = Box(room.start.value, floor, room.run.value, room.top.value - floor, "board", filled=False)
    marks = (*_shell(room, width, head), *_behind(room, show, head), outline, *_in_front(room, show, width))
    below = -WALL - (170 if show.sizes else 0)
    left = -WALL - (150 if show.sizes else 0)
    return Drawing("Wall A, looking at it", marks, (left, below, width + WALL - left, head - below), pieces(room))


def pieces(room: Room) -> tuple[tuple[str, str], ...]:
    """Every piece that can be chosen, with the name it is spoken by: appliances left to right, then pipes, then members."""
    ware = [(placed.key, placed.name) for placed in sorted(room.placed, key=lambda each: each.centre.value)]
    pipes = [(pipe.key, pipe.what) for pipe in room.pipes]
    members = [(member.mark, f"{member.what} {member.mark}") for member in sorted(room.members, key=lambda each: (each.x, each.z))]
    return (*ware, *pipes, *members)


def view_height(room: Room) -> float:
    """How high the elevation is drawn, from the bare floor."""
    frames = [placed.figures["frame_top"].value for placed in room.placed]
    return max(room.top.value, *frames, 0.0) + ABOVE if frames else room.top.value + ABOVE


def _behind(room: Room, show: Show, head: float) -> Iterator[Mark]:
    """What the boards hide, and the tile joints that are seen through to it."""
    if show.pipes:
        yield from _stack(room, head)
    if show.tiles:
        yield from _tiles(room)
    if show.steel:
        yield from (_member(member) for member in room.members)
        for placed in room.placed:
            yield from _frame(placed)
    if show.pipes:
        for pipe in room.pipes:
            yield from _pipe(pipe)


def _in_front(room: Room, show: Show, width: float) -> Iterator[Mark]:
    for placed in room.placed:
        if show.ware:
            yield from ware_drawing.front(placed, room)
        if show.marks:
            yield from ware_drawing.settings(placed)
    if show.marks:
        yield from _datum(room, width)
    if show.sizes:
        yield from _widths(room, width)


def _shell(room: Room, width: float, head: float) -> Iterator[Mark]:
    yield Box(-WALL, -WALL, WALL, head + WALL, "wall")
    yield Box(width, -WALL, WALL, head + WALL, "wall")
    yield Box(0, -WALL, width, WALL, "wall")
    if room.finished_floor.value > 0:
        yield Box(0, 0, width, room.finished_floor.value, "floor", piece="floor")


def _stack(room: Room, head: float) -> Iterator[Mark]:
    centre = room.figures["stack"].value
    yield Box(centre - 55, 0, 110, head, "soil", piece="stack")


def _tiles(room: Room) -> Iterator[Mark]:
    left, right = room.start.value, room.start.value + room.run.value
    bottom, top = room.finished_floor.value, room.top.value
    step_x = room.tile.size("width").value + room.figures["joint"].value
    step_z = room.tile.size("height").value + room.figures["joint"].value
    first = left + (room.run.value % step_x) / 2
    across = [first + place * step_x for place in range(int(room.run.value / step_x) + 1)]
    yield from (Line(x, bottom, x, top, "tile") for x in across if left < x < right)
    # Courses are set out from the top, so that the full tile is the one in sight.
    courses = [top - place * step_z for place in range(1, int((top - bottom) / step_z) + 1)]
    yield from (Line(left, z, right, z, "tile") for z in courses if z > bottom)


def _member(member: Member) -> Mark:
    style: Style = "timber" if "timber" in member.role or "noggin" in member.role else "steel"
    across = member.section[0]
    sizes = {"x": (member.length.value, across), "z": (across, member.length.value), "y": (across, across)}[member.along]
    return Box(member.x, member.z, *sizes, style, piece=member.mark)


def _frame(placed: Placed) -> Iterator[Mark]:
    leg, top = placed.frame.size("leg").value, placed.figures["frame_top"].value
    feet = max(placed.figures["feet"].value, 0.0)
    yield Box(placed.left, feet, leg, top - feet, "steel", piece=placed.key)
    yield Box(placed.right - leg, feet, leg, top - feet, "steel", piece=placed.key)
    yield Box(placed.left, top - leg, placed.right - placed.left, leg, "steel", piece=placed.key)
    for x in (placed.left, placed.right - leg):
        yield Line(x + leg / 2, 0, x + leg / 2, feet, "steel", piece=placed.key)
        yield Line(x - 10, 0, x + leg + 10, 0, "steel", piece=placed.key)


def _pipe(pipe: PipeRun) -> Iterator[Mark]:
    style = PIPES[pipe.kind]
    if pipe.kind in {"hot", "cold"}:
        for (x1, z1), (x2, z2) in pairwise(pipe.points):
            yield Line(x1, z1, x2, z2, style, piece=pipe.key)
        x, z = pipe.points[-1]
        yield Words(x, z + 25, "H" if pipe.kind == "hot" else "C", 2.6, style, bold=True, piece=pipe.key)
        return
    half = pipe.size / 2
    for (x1, z1), (x2, z2) in pairwise(pipe.points):
        if abs(x2 - x1) >= abs(z2 - z1):
            yield Shape(((x1, z1 - half), (x2, z2 - half), (x2, z2 + half), (x1, z1 + half)), style, piece=pipe.key)
        else:
            yield Shape(((x1 - half, z1), (x2 - half, z2), (x2 + half, z2), (x1 + half, z1)), style, piece=pipe.key)


def _datum(room: Room, width: float) -> Iterator[Mark]:
    height = room.figures["datum"].value
    if height < view_height(room):
        yield Line(-WALL, height, width + WALL, height, "datum")
        words = f"datum, {measure.show_length(height)} above bare floor"
        yield Words(width - 20, height + 30, words, 2.4, "datum", "end", figure="datum")


def _widths(room: Room, width: float) -> Iterator[Mark]:
    """The running widths under the wall, and the height of the pre-wall beside it."""
    stations = sorted({0.0, width, *(placed.centre.value for placed in room.placed)})
    level = -WALL - 60
    owners = {placed.centre.value: placed for placed in room.placed}
    for x1, x2 in pairwise(stations):
        placed = owners.get(x2)
        tbc = any(owners[x].centre.tbc for x in (x1, x2) if x in owners)
        text = measure.show_length(x2 - x1)
        yield Dimension(x1, level, x2, level, text, placed.key if placed else "", f"{placed.key}.centre" if placed else "", tbc)
    for placed in room.placed:
        # The centre line runs through the elevation and on into the plan below it.
        yield Line(placed.centre.value, -WALL - 100, placed.centre.value, placed.figures["frame_top"].value + 40, "datum", piece=placed.key)
    high = room.top.value
    yield Dimension(-WALL - 70, 0, -WALL - 70, high, measure.show_length(high), "", "top_of_prewall", room.top.tbc)
