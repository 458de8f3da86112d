"""The floor of a room as it is tiled, up to the walls, the fronts of its pre-walls and what stands on it, and how best to set it out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, converted, number, total
from tundish.layout.design import BONDS
from tundish.layout.floor_plan import FloorPlan, Outline, Stood, area_of, free_parts, rim_of
from tundish.layout.footprints import of_prewall, square_ended
from tundish.layout.inputs import Inputs
from tundish.layout.once import once
from tundish.layout.room import Room, TiledFloor
from tundish.layout.tile_starts import Choice, Line, best_starts, starts
from tundish.layout.tiles import TiledFace, Tiling, around, fits

WHERE: Final = "design.floor"
FLOOR: Final = "Floor"
_SIZES: Final = ("width", "height", "thickness")
_MM2: Final = 1e6


def floored(rooms: Sequence[Room], book: Book) -> tuple[Room, ...]:
    """The pre-walls of one room, the first with the room's floor where that is tiled; a tile that cannot be used is told."""
    first = rooms[0]
    if not first.plan.design.floor.tile:
        return tuple(rooms)
    inputs = Inputs(first.path)
    tile = inputs.item(book, first.plan.design.floor.tile, ("tile",), f"{WHERE}.tile")
    joint = inputs.sure(first.plan.design.floor, "joint", WHERE)
    floor = None
    if tile is not None and inputs.complete(tile, _SIZES, f"{WHERE}.tile"):
        face, lines = _face(rooms)
        if face is not None and face.plan is not None:
            area, rim = _area(rooms, face.plan), _rim(rooms, face.plan)
            floor = TiledFloor(tile, joint, first.plan.design.floor.bond, face, lines, area, rim)
    return (replace(first, floor=floor, problems=(*first.problems, *inputs.problems)), *rooms[1:])


def floor_tiling(floor: TiledFloor) -> Tiling:
    """The floor's tile as it lies, its width along wall A, with its joint and its bond."""
    return Tiling(floor.tile.bare("width"), floor.tile.bare("height"), floor.joint.value, BONDS[floor.bond])


def floor_choices(room: Room) -> tuple[Choice, ...]:
    """The best three starts for the floor, and the one that was chosen if it is another; nothing where it is not tiled, or with mosaic."""
    floor = room.floor
    if floor is None or not fits(floor.face, floor_tiling(floor)):
        return ()
    best = _best(floor)
    chosen = _chosen(room, floor)
    return best if chosen is None or any(each.start.name == chosen.start.name for each in best) else (*best, chosen)


@once
def floor_laid(room: Room) -> Choice | None:
    """The floor tiled from the start that was chosen, or from the best; None where it is not tiled, or with mosaic."""
    floor = room.floor
    if floor is None or not fits(floor.face, floor_tiling(floor)):
        return None
    return _chosen(room, floor) or _best(floor)[0]


@once
def _best(floor: TiledFloor) -> tuple[Choice, ...]:
    return best_starts((floor.face,), floor_tiling(floor), [Line(*each) for each in floor.lines])


def _chosen(room: Room, floor: TiledFloor) -> Choice | None:
    wanted, tiling = room.plan.design.floor.tile_start, floor_tiling(floor)
    if not wanted:
        return None
    found = next((each for each in starts((floor.face,), tiling, [Line(*each) for each in floor.lines]) if each.name == wanted), None)
    return None if found is None else Choice(found, around((floor.face,), tiling, found))


def _face(rooms: Sequence[Room]) -> tuple[TiledFace | None, tuple[tuple[str, float], ...]]:
    """The floor as one face, wall A along its top, and its lines; None where nothing of it is free."""
    stands = tuple(_stands(rooms))
    parts = free_parts(rooms[0].corners, [each.foot for each in stands])
    if not parts:
        return None, ()
    places = [place for part in parts for place in part]
    left, right = min(x for x, _ in places), max(x for x, _ in places)
    near, far = min(y for _, y in places), max(y for _, y in places)

    def seen(shape: Outline) -> Outline:
        return tuple((x - left, far - y) for x, y in shape)

    free = tuple(_upright(seen(part)) for part in parts)
    plan = FloorPlan(free, seen(rooms[0].corners), tuple(Stood(each.name, seen(each.foot)) for each in stands))
    return TiledFace(FLOOR, right - left, far - near, plan=plan), tuple((name, x - left) for name, x in _lines(rooms) if left < x < right)


def _upright(part: Outline) -> Outline:
    """A part that was turned over, from its lower left again."""
    return part[3], part[2], part[1], part[0]


def _stands(rooms: Sequence[Room]) -> Iterator[Stood]:
    first = rooms[0]
    for room in rooms:
        name = room.prewall.name.strip() or (f"Pre-wall at wall {room.wall}" if len(rooms) > 1 else "Pre-wall")
        yield Stood(name, tuple(room.line.in_plan(*place) for place in of_prewall(room)))
    for thing in first.around.of("obstacle"):
        if thing.bottom <= first.finished_floor.value:
            yield Stood(thing.name, tuple(first.line.in_plan(*place) for place in thing.shape))


def _lines(rooms: Sequence[Room]) -> Iterator[tuple[str, float]]:
    """What tiles may be wanted on: doors in walls that run as wall A does, and what hangs at wall A."""
    first = rooms[0]
    for thing in first.around.of("door"):
        places = [first.line.in_plan(*place) for place in thing.shape]
        (ax, ay), (bx, by) = places[0], places[1]
        if abs(ay - by) < 1 < abs(ax - bx):
            yield f"the {thing.name}", (ax + bx) / 2
    for room in rooms:
        if room.line.heading == 0 and room.corner is None:
            yield from ((each.name, room.line.in_plan(each.centre.value, 0.0)[0]) for each in room.placed)


def _area(rooms: Sequence[Room], plan: FloorPlan) -> Figure:
    """The floor that is tiled, m²: the room less its pre-walls less what else stands there."""
    first = rooms[0]
    whole = _whole(first)
    fronts = total([_foot_area(room) for room in rooms], "Pre-walls")
    other = area_of(plan.parts) / _MM2 - (whole.value - fronts.value)
    names = ", ".join(each.name for each in plan.stands[len(rooms) :])
    free = (whole - fronts).named("Room less pre-walls") if abs(other) > _LITTLE else whole - fronts
    if other < -_LITTLE:
        free = free - number(-other, "m²", f"What stands there: {names}" if names else "Outside the room")
    elif other > _LITTLE:
        free = free + number(other, "m²", "Where they overlap")
    return free.named("Floor that is tiled")


_LITTLE: Final = 1e-6


def _whole(room: Room) -> Figure:
    """The floor of the whole room, m²."""
    if room.box:
        return converted(room.sides[0].length * room.sides[1].length, "m²", "Floor of the room")
    corners = (*room.corners, room.corners[0])
    area = abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in pairwise(corners))) / 2 / _MM2
    lengths = [side.length for side in room.sides]
    low, high = (min(each.low / each.value for each in lengths) ** 2, max(each.high / each.value for each in lengths) ** 2)
    tbc = any(each.tbc for each in lengths)
    return Figure(area, area * low, area * high, "m²", "Floor of the room", tbc=tbc, note="By its walls and corners.")


def _foot_area(room: Room) -> Figure:
    name = room.prewall.name.strip() or f"At wall {room.wall}"
    if square_ended(room):
        return converted(room.run * room.figures["finished_face"], "m²", name)
    foot = (*(places := of_prewall(room)), places[0])
    area = abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in pairwise(foot))) / 2 / _MM2
    return number(area, "m²", name if room.corner is None else f"Across the corner at {room.wall}")


def _rim(rooms: Sequence[Room], plan: FloorPlan) -> Figure:
    """The edges of the floor but for the fronts of pre-walls, whose foot has its bead already."""
    fronts = total([face.tiled_width for room in rooms for face in room.faces if face.key == "front"], "Fronts of pre-walls")
    for room in rooms:
        for _, deep, _ in room.faces[0].hidden:
            fronts = (fronts - deep).named(fronts.label)
    rim = number(rim_of(plan.parts), "mm", "Round the floor")
    rest = rim - fronts
    return (rest if rest.low >= 0 else number(0, "mm", "None")).named("Round the floor, but for pre-walls")
