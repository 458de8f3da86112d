"""The plan: the strip under the elevation, on the same centres, and the whole room. y runs down the page into the room."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish import measure
from tundish.documents import ware_drawing
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Style, Words
from tundish.documents.opening_drawing import beyond, opening_marks
from tundish.documents.wall_drawing import ALL, WALL, Show, frame_key, pieces
from tundish.field import must_read
from tundish.layout.room import Member, Room
from tundish.rules.rule import Finding

CLEAR: Final = "space/front"
"""The rule that asks for clear floor."""
BEYOND: Final = 120.0
"""How much floor the strip shows beyond what stands out furthest."""


def strip(room: Room, show: Show = ALL) -> Drawing:
    """The pre-wall from above with what hangs on it."""
    out = max((placed.ware.size("projection").value for placed in room.placed), default=300.0)
    deep = room.figures["finished_face"].value + out + BEYOND
    width = room.width.value
    sides = (Box(-WALL, -deep, WALL, deep, "wall"), Box(width, -deep, WALL, deep, "wall"))
    title = "Plan, same scale, same centres"
    caption = Words(16, -deep + BEYOND / 3, title, 2.6, "room", "start")
    marks = (*sides, *_void(room, show), *_depth(room), caption)
    left = -WALL - 120
    return Drawing(title, marks, (left, -deep, width + WALL - left, deep + WALL), pieces(room, show))


def whole_room(room: Room, show: Show = ALL, findings: tuple[Finding, ...] = ()) -> Drawing:
    """The whole room from above: doors with their swing, the pre-wall, the ware and the clear floor its checks ask for."""
    width, depth = room.width.value, must_read(room.plan.survey.room, "depth").value
    walls = (
        Box(-WALL, -depth - WALL, WALL, depth + 2 * WALL, "wall"),
        Box(width, -depth - WALL, WALL, depth + 2 * WALL, "wall"),
        Box(0, -depth - WALL, width, WALL, "wall"),
    )
    openings = tuple(mark for opening in room.plan.survey.openings for mark in opening_marks(opening, (width, depth), WALL))
    sizes = (
        Dimension(0, -depth - WALL - 60, width, -depth - WALL - 60, measure.show_length(width), figure="width"),
        Dimension(-WALL - 60, -depth, -WALL - 60, 0, measure.show_length(depth), figure="room_depth"),
    )
    x1, y1, x2, y2 = beyond(openings)
    left, low = min(-WALL - 120, x1 - 20), min(-depth - WALL - 110, y1 - 20)
    right, high = max(width + WALL, x2 + 20), max(WALL, y2 + 20)
    marks = (*walls, *_clear(room, findings), *_void(room, show), *openings, *sizes)
    return Drawing("Whole room", marks, (left, low, right - left, high - low), pieces(room, show))


def _clear(room: Room, findings: tuple[Finding, ...]) -> Iterator[Mark]:
    """The clear floor in front of each appliance that its check asks for."""
    face = room.figures["finished_face"].value
    for finding in findings:
        for placed in room.placed:
            if finding.rule == CLEAR and finding.least is not None and finding.place == f"{room.name}, {placed.name}":
                half, out = placed.ware.size("width").value / 2, face + placed.ware.size("projection").value
                style: Style = "room" if finding.state == "passes" else "fails"
                yield Box(placed.centre.value - half, -out - finding.least.value, 2 * half, finding.least.value, style)
                words = f"{measure.show_length(finding.least.value)} clear"
                yield Words(placed.centre.value, -out - finding.least.value / 2, words, 2.6, style)


def _void(room: Room, show: Show) -> Iterator[Mark]:
    face, depth = room.figures["finished_face"].value, room.depth.value
    yield Box(-WALL, 0, room.width.value + 2 * WALL, WALL, "wall")
    if show.pipes:
        yield from _soil(room)
    if show.steel:
        for member in room.members:
            yield from _member(member, depth)
        yield from _frames(room)
    for placed in room.placed:
        yield Line(placed.centre.value, 0, placed.centre.value, -face, "datum")
    yield Box(room.start.value, -face, room.run.value, face - depth, "board")
    if show.ware:
        for placed in room.placed:
            yield from ware_drawing.above(placed, face)


def _soil(room: Room) -> Iterator[Mark]:
    stack_x, stack_y = room.figures["stack"].value, room.figures["stack_from_wall"].value
    for pipe in room.pipes_of("soil", "waste"):
        (x1, _), (x2, _) = pipe.points[0], pipe.points[-1]
        yield Box(min(x1, x2), -stack_y - pipe.size / 2, abs(x2 - x1), pipe.size, "soil", piece=pipe.key)
    yield Ellipse(stack_x, -stack_y, 55, 55, "soil", "stack")
    yield Ellipse(stack_x, -stack_y, 48, 48, "ware", "stack")


def _member(member: Member, depth: float) -> Iterator[Mark]:
    """Uprights and the ties to the wall; what is under the floor is not seen from above."""
    if member.along == "z":
        yield Box(member.x, -depth, member.section[0], member.section[1], "steel", piece=member.mark)
    elif member.along == "y" and member.z >= 0:
        yield Box(member.x, -member.y - member.length.value, member.section[0], member.length.value, "steel", piece=member.mark)


def _frames(room: Room) -> Iterator[Mark]:
    depth = room.depth.value
    for placed in room.placed:
        leg, behind, key = placed.frame.size("leg").value, placed.frame.size("depth").value, frame_key(placed)
        yield Box(placed.left, -depth, leg, behind, "steel", piece=key)
        yield Box(placed.right - leg, -depth, leg, behind, "steel", piece=key)


def _depth(room: Room) -> Iterator[Mark]:
    """How far the finished face stands from the wall."""
    face = room.figures["finished_face"].value
    yield Dimension(-WALL - 60, -face, -WALL - 60, 0, measure.show_length(face), "", "finished_face", room.depth.tbc)
