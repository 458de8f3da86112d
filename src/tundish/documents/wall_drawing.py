"""The elevation of a pre-wall: what is behind, what is seen, and every width, to scale. One drawing for window and paper."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tundish import measure
from tundish.documents import pipe_drawing, recess_drawing, slope_drawing, tile_lines, ware_drawing
from tundish.documents.drawing import Box, Dimension, Drawing, Line, Mark, Style, Words
from tundish.documents.shortfalls import clear_of_line, shortfalls
from tundish.layout import footprints
from tundish.layout.room import Member, Placed, Room
from tundish.rules.rule import Finding

WALL: Final = 40.0
"""How much of the existing wall and floor is drawn round the room."""
ABOVE: Final = 60.0
"""What is drawn above the pre-wall: the wall it stands against, or the ceiling."""
STACK: Final = ("stack", "Soil stack")
"""Its id as a piece of the drawing, and how it is spoken."""
_BESIDE: Final = 60.0
LONG_TAIL: Final = 250.0
"""A tail of supply this long has room for its letter."""


@dataclass(frozen=True, slots=True)
class Show:
    """What is drawn: each layer can be left out. The client's view has neither steel, pipes nor names.

    `finish`: heights are written from the finished floor. `line`: how high a line of words is as it will be drawn, mm of the wall: what
    words stand clear of follows from it.
    """

    tiles: bool = True
    boards: bool = True
    steel: bool = True
    pipes: bool = True
    ware: bool = True
    marks: bool = True
    sizes: bool = True
    names: bool = True
    finish: bool = False
    line: float = 60.0


ALL: Final = Show()
CLIENT_VIEW: Final = Show(boards=False, steel=False, pipes=False, marks=False, sizes=False, names=False)


def elevation(room: Room, show: Show = ALL, findings: tuple[Finding, ...] = ()) -> Drawing:
    """A wall, looking at it: x from its left end, y up from the bare floor; `findings` that are missed are drawn in red lead."""
    width, head, ground = room.width.value, view_height(room), _ground(room, show)
    floor = room.finished_floor.value
    left, right = footprints.front(room)
    outline = Box(left, floor, right - left, room.top.value - floor, "board", filled=False)
    marks = (
        *_shell(room, head, ground),
        *_behind(room, show, head),
        outline,
        *_joined(room, show),
        *slope_drawing.before(room, head),
        *_in_front(room, show),
        *shortfalls(room, findings, show.line),
    )
    below = foot(room, show)
    left = -WALL - (sizes_out(show) if show.sizes else 0)
    return Drawing(f"Wall {room.wall}, looking at it", marks, (left, below, width + WALL - left, head - below), pieces(room, show))


def pieces(room: Room, show: Show = ALL) -> tuple[tuple[str, str], ...]:
    """Every piece that can be chosen, with the name it is spoken by: appliances left to right, then frames, pipes, members."""
    shown: list[tuple[str, str]] = []
    if show.ware:
        shown += [(placed.key, placed.name) for placed in room.placed]
        shown += recess_drawing.pieces(room)
    if show.steel:
        shown += [(frame_key(placed), f"Frame, {placed.name}") for placed in room.framed]
    if show.pipes:
        stack = [STACK] if pipe_drawing.stack_here(room) else []
        shown += [*stack, *((pipe.key, pipe.what) for pipe in room.pipes)]
    if show.steel:
        members = sorted(room.members, key=lambda each: (each.x, each.z))
        shown += [(member.mark, f"{member.what} {member.mark}") for member in members]
    return tuple(shown)


def frame_key(placed: Placed) -> str:
    """The id of an appliance's frame as a piece of the drawing."""
    return f"{placed.key}.frame"


def foot(room: Room, show: Show = ALL) -> float:
    """The lowest that the elevation is drawn, its widths with it."""
    return -_ground(room, show) - (beside(show) + show.line if show.sizes else 0)


def sizes_out(show: Show) -> float:
    """How far out dimensions reach, with figures that are beside their line because it is too short for them."""
    return beside(show) + max(_BESIDE, 1.5 * show.line)


def beside(show: Show) -> float:
    """How far from what it measures a dimension stands, so that its figure is clear of it."""
    return max(_BESIDE, 1.2 * show.line)


def view_height(room: Room) -> float:
    """How high the elevation is drawn, from the bare floor."""
    return max(room.top.value, *(placed.figures.get("frame_top", placed.figures["top"]).value for placed in room.placed), 0.0) + ABOVE


def _ground(room: Room, show: Show) -> float:
    """How much of the floor is drawn: noggins under it must be seen clear of the widths."""
    return max(WALL, *(-member.z + 12 for member in room.members), 0.0) if show.steel else WALL


def _behind(room: Room, show: Show, head: float) -> Iterator[Mark]:
    """What the boards hide, and the tile joints that are seen through to it."""
    if show.pipes and pipe_drawing.stack_here(room):
        yield Box(room.figures["stack"].value - 55, 0, 110, head, "soil", piece="stack")
    if show.tiles:
        yield from _tiles(room)
    if show.steel:
        yield from (_member(member) for member in room.members)
        for placed in room.framed:
            yield from _frame(placed)
    if show.pipes:
        for pipe in room.pipes:
            yield from pipe_drawing.front(room, pipe, -_ground(room, show))
        yield from _letters(room)
    if show.boards:
        yield from _boards(room)


def _in_front(room: Room, show: Show) -> Iterator[Mark]:
    if show.sizes:
        yield from _centre_lines(room, show)
    if show.ware:
        yield from recess_drawing.front(room, named=show.names)
        yield from recess_drawing.backed(room, named=show.names)
        yield from recess_drawing.in_the_way(room, named=show.names)
    for placed in room.placed:
        if show.ware:
            yield from ware_drawing.aids(placed, named=show.names)
            yield from ware_drawing.front(placed, room, show.line, named=show.names)
        if show.marks:
            yield from ware_drawing.settings(placed)
    if show.marks:
        yield from _datum(room, show)
    if show.sizes:
        yield from _sizes(room, show)


def _shell(room: Room, head: float, ground: float) -> Iterator[Mark]:
    width, floor = room.width.value, room.finished_floor.value
    yield Box(-WALL, -ground, WALL, head + ground, "wall")
    yield Box(width, -ground, WALL, head + ground, "wall")
    yield Box(0, -ground, width, ground, "wall")
    (left, right), (before, after) = footprints.front(room), room.joins
    stops = footprints.stopped(room)
    left, right = 0.0 if before or stops[0] else left, width if after or stops[1] else right
    yield Box(left, room.top.value, right - left, head - room.top.value, "wall")
    if floor > 0:
        yield Box(0, 0, width, floor, "floor", piece="floor")


def _joined(room: Room, show: Show) -> Iterator[Mark]:
    """What meets the front in the corners: what it goes on into or stops against, and a lower one that stands before it."""
    floor, width = room.finished_floor.value, room.width.value
    for join, against, left in zip(room.joins, footprints.stopped(room), (True, False), strict=True):
        if join is not None:
            yield from _beside_it(
                show, join.name, (0.0 if left else width - join.along.value, floor, join.along.value, room.top.value - floor)
            )
        elif against is not None:
            long = (against.along + against.face(room.thickness)).value
            tall = min(view_height(room) - floor, against.top.value if against.top is not None else math.inf)
            yield from _beside_it(show, against.name, (0.0 if left else width - long, floor, long, tall))
    face = room.faces[0]
    starts, ends = (face.tiled_left or room.start).value, (face.tiled_left or room.start).value + face.tiled_width.value
    for end, deep, high in face.hidden:
        met = room.meets[end]
        if met is not None:
            box = (starts if end == 0 else ends - deep.value, floor, deep.value, high.value)
            yield from _beside_it(show, met.name, box)


def _beside_it(show: Show, name: str, box: tuple[float, float, float, float]) -> Iterator[Mark]:
    """Another pre-wall as it is seen beside or before this one: its outline, and its name."""
    x, z, long, high = box
    yield Box(x, z, long, high, "hidden", filled=False)
    if show.names:
        yield Words(x + long / 2, z + high / 2, name, 2.4, "hidden", most=long, loose="near")


def _tiles(room: Room) -> Iterator[Mark]:
    left, right = footprints.front(room)
    yield from (Line(x, bottom, x, top, "tile") for x, bottom, top in tile_lines.uprights(room))
    yield from (Line(left, z, right, z, "tile") for z in tile_lines.courses(room))


def _boards(room: Room) -> Iterator[Mark]:
    """The joints between the boards of the front, of the layer that is seen."""
    for piece in (piece for face in room.faces if face.key == "front" for piece in face.seen):
        yield Box(piece.x, piece.z, piece.width.value, piece.height.value, "joint", filled=False)


def _member(member: Member) -> Mark:
    buried = member.z < 0
    style: Style = "hidden" if buried else "timber" if "timber" in member.role else "steel"
    across = member.section[0]
    turn = math.radians(abs(member.turn))
    seen = member.length.value * math.cos(turn)
    wide = across * math.cos(turn) + (member.section[1] * math.sin(turn) if turn else 0.0)
    sizes = {"x": (seen, across), "z": (wide, member.length.value), "y": (across, across)}[member.along]
    return Box(member.x, member.z, *sizes, style, piece=member.mark)


def _frame(placed: Placed) -> Iterator[Mark]:
    leg, top, key = placed.frame.bare("leg"), placed.figures["frame_top"].value, frame_key(placed)
    feet = max(placed.figures["feet"].value, 0.0)
    yield Box(placed.left, feet, leg, top - feet, "steel", piece=key)
    yield Box(placed.right - leg, feet, leg, top - feet, "steel", piece=key)
    yield Box(placed.left, top - leg, placed.right - placed.left, leg, "steel", piece=key)
    for x in (placed.left, placed.right - leg):
        yield Line(x + leg / 2, 0, x + leg / 2, feet, "steel", piece=key)
        yield Line(x - 10, 0, x + leg + 10, 0, "steel", piece=key)


def _letters(room: Room) -> Iterator[Mark]:
    """H and C beside the tails and where the supplies come in: colour alone says nothing."""
    for kind, letter, style, side in (("hot", "H", pipe_drawing.PIPES["hot"], -1), ("cold", "C", pipe_drawing.PIPES["cold"], 1)):
        for pipe in room.pipes_of(kind):
            (x, low), (_, high) = pipe.points[-2:]
            if high - low >= LONG_TAIL:
                yield Words(
                    x + side * 14,
                    (low + high) / 2,
                    letter,
                    2.6,
                    style,
                    "end" if side < 0 else "start",
                    bold=True,
                    piece=pipe.key,
                    loose="near",
                )
        if room.pipes_of(kind):
            x, left = room.pipes_of(kind)[0].route[0][0], (room.figures["hot"].value < room.figures["cold"].value) == (kind == "hot")
            if not pipe_drawing.at_wall(room, x):
                continue
            yield Words(x + (-14 if left else 14), 95, letter, 2.6, style, "end" if left else "start", bold=True, loose="near")


def _datum(room: Room, show: Show) -> Iterator[Mark]:
    height, width = room.figures["datum"].value, room.width.value
    if height < view_height(room):
        yield Line(-WALL, height, width + WALL, height, "datum")
        words = f"datum {measure.show_length(height - _zero(room, show))}"
        yield Words(width - 12, height + clear_of_line(show.line), words, 2.6, "datum", "end", figure="datum", loose="along")


def _centre_lines(room: Room, show: Show) -> Iterator[Mark]:
    """The centre lines run through the elevation and on into the plan below it."""
    for placed in room.placed:
        top = placed.figures.get("frame_top", placed.figures["top"]).value
        yield Line(placed.centre.value, -_ground(room, show) - beside(show) - 30, placed.centre.value, top + 40, "datum")


def _sizes(room: Room, show: Show) -> Iterator[Mark]:
    """The widths under the wall from centre to centre, and the height of the pre-wall beside it."""
    width = room.width.value
    stations = sorted({0.0, width, *(placed.centre.value for placed in room.placed)})
    level = -_ground(room, show) - beside(show)
    owners = {placed.centre.value: placed for placed in room.placed}
    for x1, x2 in pairwise(stations):
        placed = owners.get(x2) or owners.get(x1)
        tbc = any(owners[x].centre.tbc for x in (x1, x2) if x in owners)
        text = measure.show_length(x2 - x1)
        yield Dimension(x1, level, x2, level, text, "", f"{placed.key}.centre" if placed else "width", tbc)
    low, high, left = _zero(room, show), room.top.value, -WALL - beside(show)
    yield Dimension(left, low, left, high, measure.show_length(high - low), "", "top_of_prewall", room.top.tbc)


def _zero(room: Room, show: Show) -> float:
    """The level that heights are written from."""
    return room.finished_floor.value if show.finish else 0.0
