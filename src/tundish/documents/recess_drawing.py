"""What is let into the front of a pre-wall, niches and access openings, what has a noggin behind it, and what stands before its wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.documents.drawing import Box, Line, Mark, Shape, Words
from tundish.field import must_read, read
from tundish.layout.room import Room


def pieces(room: Room) -> list[tuple[str, str]]:
    """Ids and names of niches, access openings and noggins."""
    return [*((each.key, each.name) for each in room.recesses), *((each.key, each.name) for each in room.backed)]


def front(room: Room, *, named: bool = True) -> Iterator[Mark]:
    """Niches with their depth shown as a second edge, access openings with a cross corner to corner."""
    for each in room.recesses:
        x, z, wide, high = each.left.value, each.bottom.value, each.width.value, each.height.value
        yield Shape(((x, z), (x + wide, z), (x + wide, z + high), (x, z + high)), "ware", each.key)
        if each.kind == "niche":
            edge = min(_EDGE, wide / 4, high / 4)
            yield Box(x + edge, z + edge, wide - 2 * edge, high - 2 * edge, "hidden", each.key, filled=False)
        else:
            yield Line(x, z, x + wide, z + high, "hidden", each.key)
            yield Line(x, z + high, x + wide, z, "hidden", each.key)
        if named:
            at, names = (z + high / 2, z + high / 2) if each.kind == "niche" else (z - _UNDER, z)
            most = _most(room, x + wide / 2)
            yield Words(x + wide / 2, at, each.name, piece=each.key, most=most, loose="near", names=(x + wide / 2, names))


def above(room: Room) -> Iterator[Mark]:
    """Niches as they are cut into the front, and access openings as a line across it; y runs down the page."""
    face = room.figures["finished_face"].value
    for each in room.recesses:
        x, wide = each.left.value, each.width.value
        if each.depth is not None:
            yield Box(x, -face, wide, each.depth.value, "ware", each.key)
        else:
            yield Line(x, -face - _OPENING, x + wide, -face - _OPENING, "hidden", each.key)


def backed(room: Room, *, named: bool = True) -> Iterator[Mark]:
    """Where something can be fixed: dashed round what backs it, with a line through its middle."""
    for each in room.backed:
        left, right, middle = each.left.value, each.right.value, each.level.value
        yield Box(left, middle - _BACKED / 2, right - left, _BACKED, "hidden", each.key, filled=False)
        yield Line(left, middle, right, middle, "hidden", each.key)
        if named:
            along, over = (left + right) / 2, middle + _BACKED / 2
            most = _most(room, along)
            yield Words(along, over + _OVER, each.name, piece=each.key, most=most, loose="near", names=(along, over))


def in_the_way(room: Room, *, named: bool = True) -> Iterator[Mark]:
    """Obstacles that stay, and windows, at this wall: dashed, for they are not in its plane."""
    width = room.width.value
    top = room.top.value
    for obstacle in room.plan.survey.obstacles:
        if obstacle.wall == room.wall and obstacle.stays:
            x, z = must_read(obstacle, "from_left").value, must_read(obstacle, "bottom").value
            wide, high = min(must_read(obstacle, "width").value, width - x), min(must_read(obstacle, "height").value, top - z)
            if wide > 0 and high > 0:
                yield Box(x, z, wide, high, "hidden")
                if named:
                    at, name = (x + wide / 2, z + high / 2), obstacle.name.strip() or obstacle.what
                    yield Words(*at, name, style="hidden", most=_most(room, at[0]), loose="near", names=at)
    for opening in room.plan.survey.openings:
        sill = read(opening, "sill")
        if opening.wall == room.wall and sill is not None and sill.value < top:
            x, wide = must_read(opening, "from_left").value, must_read(opening, "width").value
            high = min(must_read(opening, "height").value, top - sill.value)
            yield Box(x, sill.value, max(min(wide, width - x), 0.0), high, "hidden", filled=False)
            if named:
                at = (x + wide / 2, sill.value + high - _UNDER)
                yield Words(*at, opening.kind, style="hidden", loose="near", names=at)


def _most(room: Room, along: float) -> float:
    """How wide a name in the middle of a place along the wall may be: as far as the nearer end of the wall, both ways."""
    return max(2 * min(along, room.width.value - along) - _EDGE, _EDGE)


_OPENING = 12.0
"""How far before the face an access opening is marked from above."""
_EDGE = 18.0
_UNDER = 45.0
_BACKED = 60.0
"""How high the dashes round a noggin are, so that it can be pressed."""
_OVER = 15.0
