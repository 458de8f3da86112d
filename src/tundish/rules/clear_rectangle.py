"""The rectangle of floor, square to the first pre-wall, that walls and pre-walls leave clear, and that comes nearest to what is asked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from typing import NamedTuple

from tundish.figure import Figure, number
from tundish.layout.around import Thing
from tundish.layout.clip import box, common, shares_within
from tundish.layout.floor_plan import inside
from tundish.layout.footprints import finished
from tundish.layout.room import Room
from tundish.layout.walls import Point
from tundish.rules.sides import at_its_face, edge_of


class Clear(NamedTuple):
    """The sides of a rectangle of floor, along the pre-wall and out of it."""

    along: Figure
    out: Figure


def clear_rectangle(room: Room, long: float, wide: float) -> Clear | None:
    """Of all that are clear, the rectangle that lacks least of these two sides, whichever way round; of equal ones the largest.

    Clear of pre-walls and boxings as tiled, not of what hangs on them or stands in the room. None where there is no floor.
    """
    walls = tuple(room.line.on_wall(each) for each in room.corners)
    stands = [finished(room), *(each.shape for each in room.around.of("prewall"))]
    places = [place for shape in (walls, *stands) for place in shape]
    xs, ys = (sorted({round(place[axis], 1) for place in places}) for axis in (0, 1))
    tried = sorted(
        (_lacks(right - left, far - near, long, wide), -(right - left) * (far - near), (left, right, near, far))
        for left, right in combinations(xs, 2)
        for near, far in combinations(ys, 2)
    )
    found = next((sides for _, _, sides in tried if _is_clear(sides, walls, stands)), None)
    if found is None:
        return None
    left, right, near, far = found
    return Clear(_side(room, left, right, along=True), _side(room, near, far, along=False))


def still_open(room: Room) -> Iterator[Figure]:
    """By how much the finished face of each pre-wall of the room can still move, either way of what it is reckoned at."""
    faces = [room.figures["finished_face"], *(each.face for each in room.around.of("prewall") if each.face is not None)]
    for face in dict.fromkeys(faces):
        if not face.settled:
            yield (number(face.value, label="Finished face as reckoned") - face).named("Finished face still open")


def _lacks(one: float, other: float, long: float, wide: float) -> float:
    shorter, longer = sorted((one, other))
    return max(wide - shorter, 0.0) + max(long - longer, 0.0)


def _is_clear(sides: tuple[float, float, float, float], walls: Sequence[Point], stands: Sequence[Sequence[Point]]) -> bool:
    left, right, near, far = sides
    shape = box(left, right, near, far)
    if not inside(tuple(walls), ((left + right) / 2, (near + far) / 2)) or any(common(shape, each) for each in stands):
        return False
    return not any(_enters(a, b, sides) for a, b in pairwise((*walls, walls[0])))


def _enters(a: Point, b: Point, sides: tuple[float, float, float, float]) -> bool:
    """Whether a wall comes into a rectangle by more than a millimetre."""
    left, right, near, far = sides
    shares = shares_within((a, b), (left + 1, near + 1), (right - left - 2, far - near - 2), _STRAIGHT)
    return shares is not None and shares[0] < shares[1]


_STRAIGHT = 1e-6


def _side(room: Room, start: float, end: float, *, along: bool) -> Figure:
    """One side: from wall to wall as it is measured, from the finished face, or as it lies between what stands there."""
    whole = room.width.value if along else room.figures["room_depth"].value
    if along and (start, end) == (0.0, round(whole, 1)):
        return room.width
    face = room.figures["finished_face"]
    if not along and (start, end) == (round(face.value, 1), round(whole, 1)):
        return (room.figures["room_depth"] - face).named("Finished face to the wall opposite")
    size = _edge(room, end, along=along) - _edge(room, start, along=along)
    return size.named("Clear along the pre-wall" if along else "Clear out of the pre-wall")


def _edge(room: Room, at: float, *, along: bool) -> Figure:
    """Where a side begins or ends: at the face of a pre-wall as far as that may still move, else where it is."""
    name, face = room.prewall.name.strip() or "the pre-wall", room.figures["finished_face"]
    own = Thing("prewall", name, room.prewall_path, finished(room), 0.0, room.top.value, face=face)
    there = (each for each in (own, *room.around.of("prewall")) if at_its_face(each, at, along=along))
    thing = next(there, None)
    return number(at, label="Wall") if thing is None else edge_of(thing, at, along=along)
