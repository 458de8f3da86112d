"""The plan: the strip under the elevation, on the same centres, and the whole room. y runs down the page into the room."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from tundish import measure
from tundish.documents import pipe_drawing, recess_drawing, slope_drawing, ware_drawing
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Style, Words
from tundish.documents.opening_drawing import beyond, obstacle_marks, opening_marks
from tundish.documents.turning import at, turned
from tundish.documents.wall_drawing import ALL, STACK, WALL, Show, beside, frame_key, pieces, sizes_out
from tundish.layout import footprints
from tundish.layout.room import Member, Room
from tundish.layout.walls import Point, WallSide
from tundish.rules.rule import Finding

CLEAR: Final = "space/front"
"""The rule that asks for clear floor."""
TURNING: Final = "space/turning"
"""The rule that asks for a circle for a wheelchair to turn in."""
BEYOND: Final = 120.0
"""How much floor the strip shows beyond what stands out furthest."""
SIZES_OUT: Final = 170.0
"""How far beyond the walls the sizes stand, clear of the letters of the walls."""
_LETTER_OUT: Final = 60.0
_LETTER_IN: Final = 130.0
_SHORT_WALL: Final = 400.0
_ROUND: Final = 80.0
"""Half of a stack, and a little."""


def strip(room: Room, show: Show = ALL) -> Drawing:
    """The pre-wall from above with what hangs on it."""
    out = max((placed.ware.bare("projection") for placed in room.placed), default=300.0)
    beyond_it = max(BEYOND, 2 * show.line)
    deep = room.figures["finished_face"].value + out + beyond_it
    width = room.width.value
    sides = (
        Box(-WALL, -deep, WALL, deep, "wall"),
        Box(width, -deep, WALL, deep, "wall"),
        Box(-WALL, 0, width + 2 * WALL, WALL, "wall"),
    )
    title = "Plan, same scale, same centres"
    caption = Words(16, -deep + beyond_it / 3, title, 2.6, "room", "start", loose="along")
    piped = pipe_drawing.above(room) if show.pipes else ()
    marks = (*sides, *piped, *_void(room, show), *_goes_on(room, deep), *_depth(room, show), caption)
    left, behind = -WALL - sizes_out(show), max(WALL, *_behind(room)) if show.pipes else WALL
    return Drawing(title, marks, (left, -deep, width + WALL - left, deep + behind), pieces(room, show))


def _goes_on(room: Room, deep: float) -> Iterator[Mark]:
    """The face of what the front goes on into or stops against, or of a lower one before it, from there as far as the strip shows it."""
    face = room.figures["finished_face"].value
    for join, x, way in zip(room.joins, footprints.ends(room), (-1, 1), strict=True):
        if join is not None:
            turn = math.radians(join.turn)
            long = min((deep - face) / math.sin(turn), (x if way < 0 else room.width.value - x) / math.cos(turn))
            yield Line(x, -face, x + way * long * math.cos(turn), -face - long * math.sin(turn), "hidden")
    left, right = footprints.ends(room)
    stops = zip(footprints.stopped(room), (left, right), (-1, 1), strict=True)
    fronts = [(math.tan(math.radians(against.half)), x, way) for against, x, way in stops if against is not None]
    for end, hidden, _ in room.faces[0].hidden:
        met = room.meets[end]
        aside = 0.0 if met is None or met.against is None else math.tan(math.radians(met.against.half))
        fronts.append((aside, (left + hidden.value, right - hidden.value)[end], (-1, 1)[end]))
    for aside, x, way in fronts:
        out = min(deep - face, (x if way < 0 else room.width.value - x) / aside) if aside else deep - face
        yield Line(x, -face, x + way * out * aside, -face - out, "hidden")


def _behind(room: Room) -> Iterator[float]:
    """How far behind the wall what stands there reaches: the stack, and entries at this wall."""
    here = (each for each in room.outfalls if each.stack or 0 <= each.from_left.value <= room.width.value)
    return (_ROUND - each.from_wall.value for each in here)


def whole_room(room: Room, show: Show = ALL, findings: tuple[Finding, ...] = (), others: tuple[Room, ...] = ()) -> Drawing:
    """The whole room from above: doors with their swing, windows, every pre-wall with its ware, and the clear floor that is asked for.

    `others` are the room's other pre-walls: ids of their pieces begin with their place, "1/wc-2".
    """
    walls = tuple(_walls(room))
    at_walls = [mark for side in room.sides for mark in _at_wall(room, side)]
    leads = tuple((each, "" if each is room else f"{each.place}/") for each in (room, *others))
    own = tuple(mark for each, lead in leads for mark in _of_prewall(each, show, findings, lead))
    x1, y1, x2, y2 = beyond((*walls, *at_walls))
    if not room.closed:
        y1 = min(y1, -room.figures["room_depth"].value)
    left, low, right, high = x1 - SIZES_OUT - 60, y1 - SIZES_OUT - 50, x2 + 2 * _LETTER_OUT, y2 + 2 * _LETTER_OUT
    stack = tuple(pipe_drawing.stack_in_room(room))
    piped = (*(mark for each, lead in leads for mark in pipe_drawing.in_room(each, lead)), *stack)
    if show.pipes:
        round_it = [(mark.x, mark.y) for mark in stack if isinstance(mark, Ellipse)]
        left, low = min([left, *(x - _ROUND for x, _ in round_it)]), min([low, *(y - _ROUND for _, y in round_it)])
        right, high = max([right, *(x + _ROUND for x, _ in round_it)]), max([high, *(y + _ROUND for _, y in round_it)])
    named = {f"{lead}{key}" if key != STACK[0] else key: name for each, lead in leads for key, name in pieces(each, show)}
    named |= {STACK[0]: STACK[1]} if show.pipes else {}
    floor = (Shape(tuple((x, -y) for x, y in room.corners), "board", filled=False),) if room.closed else ()
    marks = (
        *walls,
        *floor,
        *(piped if show.pipes else ()),
        *own,
        *at_walls,
        *_turning(room, findings),
        *_letters(room),
        *_sizes(room, x1 - SIZES_OUT, y1 - SIZES_OUT),
    )
    return Drawing("Whole room", marks, (left, low, right - left, high - low), tuple(named.items()), from_above=True)


def _sizes(room: Room, left: float, low: float) -> Iterator[Mark]:
    """How wide and deep the room is over all, so far beyond it; a size can be asked about where a figure of the pre-wall says the same.

    None where the walls as measured make no room.
    """
    if not room.closed:
        return
    (x1, x2), (y1, y2) = ((min(each), max(each)) for each in zip(*room.corners, strict=True))
    for key, (fx, fy, tx, ty) in (("width", (x1, low, x2, low)), ("room_depth", (left, -y2, left, -y1))):
        whole = tx - fx + ty - fy
        yield Dimension(fx, fy, tx, ty, measure.show_length(whole), figure=key if room.figures[key].value == whole else "")


def _walls(room: Room) -> Iterator[Mark]:
    """Every wall so thick; where a corner looks into the room it is filled."""
    count = len(room.sides)
    for place, side in enumerate(room.sides):
        left = WALL if side.angle < _STRAIGHT else 0.0
        right = WALL if room.sides[(place + 1) % count].angle < _STRAIGHT else 0.0
        yield from turned((Box(-left, 0, side.length.value + left + right, WALL, "wall"),), side)


def _at_wall(room: Room, side: WallSide) -> Iterator[Mark]:
    survey = room.plan.survey
    for opening in survey.openings:
        if opening.wall == side.letter:
            yield from turned(opening_marks(opening, WALL), side)
    for obstacle in survey.obstacles:
        if obstacle.stays and obstacle.wall == side.letter:
            yield from turned(obstacle_marks(obstacle), side)
    for slope in survey.slopes:
        if slope.wall == side.letter:
            yield from turned(tuple(slope_drawing.above(slope, side.length.value)), side)


def _letters(room: Room) -> Iterator[Mark]:
    """The letter of each wall beyond it; of a short one before it, where there is room, with a line that leads to its middle."""
    for side in room.sides:
        middle, own = side.length.value / 2, side.letter == room.wall
        if side.length.value < _SHORT_WALL:
            yield Words(*at(side, middle, -_LETTER_IN), side.letter, 2.6, bold=own, loose="near", names=at(side, middle, 0))
        else:
            yield Words(*at(side, middle, WALL + _LETTER_OUT), side.letter, 2.6, bold=own, loose="near")


def _of_prewall(room: Room, show: Show, findings: tuple[Finding, ...], lead: str) -> Iterator[Mark]:
    return turned((*_clear(room, findings), *_void(room, show)), room.line, lead)


def _clear(room: Room, findings: tuple[Finding, ...]) -> Iterator[Mark]:
    """The clear floor in front of each appliance that its check asks for."""
    face = room.figures["finished_face"].value
    for finding in findings:
        for placed in room.placed:
            if finding.rule == CLEAR and finding.least is not None and finding.place == f"{room.name}, {placed.name}":
                half, out = placed.ware.bare("width") / 2, face + placed.ware.bare("projection")
                style: Style = "room" if finding.state == "passes" else "fails"
                yield Box(placed.centre.value - half, -out - finding.least.value, 2 * half, finding.least.value, style)
                words = f"{measure.show_length(finding.least.value)} clear"
                yield Words(placed.centre.value, -out - finding.least.value / 2, words, 2.6, style, loose="near")


def _turning(room: Room, findings: tuple[Finding, ...]) -> Iterator[Mark]:
    """Where a wheelchair turns: the circle that is asked for, or where it has no room the largest that is clear, with what it is short."""
    for finding in findings:
        if finding.rule != TURNING or finding.place != room.room_name or finding.spot is None:
            continue
        if finding.has is not None and finding.least is not None:
            (x, y), wanted = finding.spot, finding.least.value
            serves = finding.state == "passes"
            style: Style = "room" if serves else "fails"
            half = (wanted if serves else finding.has.value) / 2
            yield Ellipse(x, -y, half, half, style, filled=False)
            short = "" if serves else f"of {measure.show_length(wanted)}: {measure.show_length(-(finding.spare or 0.0))} short"
            yield Words(x, -y, f"turning {measure.show_length(2 * half)} {short}".strip(), 2.6, style, loose="near")


def _void(room: Room, show: Show) -> Iterator[Mark]:
    face, depth = room.figures["finished_face"].value, room.depth.value
    if show.steel:
        for member in room.members:
            yield from _member(member, depth)
        yield from _frames(room)
    for placed in room.placed:
        yield Line(placed.centre.value, 0, placed.centre.value, -face, "datum")
    if show.boards or show.tiles:
        yield _covering(room, face, depth)
    if show.ware:
        yield from recess_drawing.above(room)
        for placed in room.placed:
            yield from ware_drawing.above(placed, face, ware_drawing.room_of_name(placed, room))
            yield from ware_drawing.aids_above(placed, face)


def _covering(room: Room, face: float, depth: float) -> Mark:
    """Boards and tiles before the frame; to the walls of a corner, and cut to the mitre where they go on into those of another."""
    left, right = footprints.ends(room)
    if footprints.square_ended(room):
        return Box(left, -face, right - left, face - depth, "board")
    low, high = footprints.front(room)
    before, after = (each.shorter(room.thickness).value if each is not None else 0.0 for each in footprints.stopped(room))
    low, high = low + before, high - after
    return Shape(((low, -depth), (high, -depth), (right, -face), (left, -face)), "board")


_STRAIGHT = 180.0


def _member(member: Member, depth: float) -> Iterator[Mark]:
    """Uprights, the ties to the wall and struts on the walls of a corner; what is under the floor is not seen from above."""
    style: Style = "timber" if "timber" in member.role else "steel"
    if member.along == "z" and not member.turn:
        yield Box(member.x, -depth, member.section[0], member.section[1], style, piece=member.mark)
    elif member.along == "y" and member.z >= 0:
        yield Box(member.x, -member.y - member.length.value, member.section[0], member.length.value, style, piece=member.mark)
    elif member.turn:
        yield Shape(tuple(_turned(member)), style, member.mark)


def _turned(member: Member) -> Iterator[Point]:
    """The corners of a strut on a wall that is turned from the front, or of a batten; its depth is on the side of the front."""
    turn, deep = math.radians(member.turn), member.section[1]
    long = member.length.value if member.along == "x" else member.section[0]
    along, out = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    for far, off in ((0.0, 0.0), (long, 0.0), (long, deep), (0.0, deep)):
        yield member.x + far * along[0] + off * out[0], -(member.y + far * along[1] + off * out[1])


def _frames(room: Room) -> Iterator[Mark]:
    depth = room.depth.value
    for placed in room.framed:
        leg, behind, key = placed.frame.bare("leg"), placed.frame.bare("depth"), frame_key(placed)
        yield Box(placed.left, -depth, leg, behind, "steel", piece=key)
        yield Box(placed.right - leg, -depth, leg, behind, "steel", piece=key)


def _depth(room: Room, show: Show) -> Iterator[Mark]:
    """How far the finished face stands from the wall."""
    face = room.figures["finished_face"].value
    left = -WALL - beside(show)
    yield Dimension(left, -face, left, 0, measure.show_length(face), "", "finished_face", room.depth.tbc)
