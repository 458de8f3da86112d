"""What is beside an appliance on its left and right: a wall of the room, or the finished face of what stands before that."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final, NamedTuple

from tundish.figure import Figure, number, smallest
from tundish.layout.around import Thing
from tundish.layout.clip import box, common
from tundish.layout.room import Placed, Room
from tundish.rules.rule import WayOut
from tundish.rules.ways import set_centre

ALL: Final = ("prewall", "obstacle", "ware")
WALLS: Final = ("prewall",)
"""What a wall may be: the room's own, and pre-walls and boxings."""


class Side(NamedTuple):
    """One side of an appliance: how far its middle is from what is there, what that is, and where it ends along the wall."""

    has: Figure
    name: str
    x: float


def sides_of(room: Room, one: Placed, head_room: float, what: tuple[str, ...] = ALL) -> tuple[Side, Side]:
    """What is nearest on the left and on the right of an appliance, from the tiles behind it out to its front.

    What is no higher than its own top is reached over, and what is higher than a head is out of the way.
    """
    near = room.figures["finished_face"].value
    far = near + max(one.ware.size("projection").value, _LEAST)
    left, right = _walls(room, one, near, far)
    for thing in room.around.of(*what):
        if thing.bottom < head_room and thing.top > one.figures["top"].value:
            before, after = _of(thing, one, near, far)
            left = before if before is not None and before.x > left.x else left
            right = after if after is not None and after.x < right.x else right
    return left, right


def nearer(sides: tuple[Side, Side], label: str) -> Figure:
    """How far the middle is from the nearer side."""
    return smallest(*(each.has for each in sides), label=label)


def nearest(sides: tuple[Side, Side]) -> str:
    """What is on the nearer side."""
    return min(sides, key=lambda each: each.has.value).name


def moved_clear(one: Placed, sides: tuple[Side, Side], least: float) -> tuple[WayOut, ...]:
    """The appliance moved clear of the nearer side, where there is room between both."""
    left, right = sides
    if right.x - left.x < 2 * least:
        return ()
    if left.has.value <= right.has.value:
        return (set_centre(one, math.ceil(round(left.x + least, _DIGITS))),)
    return (set_centre(one, math.floor(round(right.x - least, _DIGITS))),)


def edge_of(thing: Thing, at: float, *, along: bool) -> Figure:
    """Where a thing begins, along the wall or out of it; of a pre-wall as far as its wall and how far its tiles stand out of that.

    `at`: where that is now. A return, which its tiles' face does not move, is where it is.
    """
    face = thing.face
    if face is not None and at_its_face(thing, at, along=along):
        sign = 1.0 if _wall_is_before(thing, at, along=along) else -1.0
        behind = number(round(at - sign * face.value, 1), label=f"Wall behind {thing.name}")
        return (behind + face if sign > 0 else behind - face).named(f"Face of {thing.name}")
    return number(round(at, 1), label=f"Edge of {thing.name}")


def at_its_face(thing: Thing, at: float, *, along: bool) -> bool:
    """Whether the front of a pre-wall, the third of its four edges, lies there square across."""
    axis = 0 if along else 1
    return len(thing.shape) == _EDGES and all(abs(place[axis] - at) < _TOUCHES for place in thing.shape[2:])


_DIGITS: Final = 3
_LEAST: Final = 1.0
_TOUCHES: Final = 0.5


def _walls(room: Room, one: Placed, near: float, far: float) -> tuple[Side, Side]:
    """The walls of the room at both sides, where they lean in as near as they come; in a plain box the ends of the wall."""
    before = [(0.0, f"wall {_letter(room, -1)}")] if room.box and room.corner is None else []
    after = [(room.width.value, f"wall {_letter(room, 1)}")] if room.box and room.corner is None else []
    if not before and room.closed:
        for x, name in _crossed(room, near, far):
            (before if x < one.centre.value else after).append((x, name))
    left, right = max(before, default=(0.0, "the left wall")), min(after, default=(room.width.value, "the right wall"))
    to_right = (room.width - one.centre).named("Centre to right wall")
    return (
        Side(one.centre if abs(left[0]) < _TOUCHES else _apart(one, left[0], left[1]), left[1], left[0]),
        Side(to_right if abs(right[0] - room.width.value) < _TOUCHES else _apart(one, right[0], right[1]), right[1], right[0]),
    )


def _apart(one: Placed, x: float, name: str) -> Figure:
    edge = number(round(x, 1), label=f"Where {name} comes nearest")
    return (one.centre - edge if x < one.centre.value else edge - one.centre).named(f"Centre to {name}")


def _letter(room: Room, step: int) -> str:
    letters = [side.letter for side in room.sides]
    return letters[(letters.index(room.wall) + step) % len(letters)]


def _crossed(room: Room, near: float, far: float) -> Iterator[tuple[float, str]]:
    """Where each wall is at both edges of a strip along the pre-wall, or at its ends within it."""
    for side in room.sides:
        (ax, ay), (bx, by) = room.line.on_wall(side.start), room.line.on_wall(side.end)
        low, high = max(min(ay, by), near), min(max(ay, by), far)
        if high - low > _TOUCHES:
            for y in (low, high):
                yield ax + (bx - ax) * (y - ay) / (by - ay), f"wall {side.letter}"


def _of(thing: Thing, one: Placed, near: float, far: float) -> tuple[Side | None, Side | None]:
    """A thing as it is beside an appliance: what of it is left of its middle, and what is right of it."""
    middle = one.centre.value
    before = common(box(middle - _FAR, middle, near, far), thing.shape)
    after = common(box(middle, middle + _FAR, near, far), thing.shape)
    left = right = None
    if before:
        x = max(x for x, _ in before)
        left = Side((one.centre - edge_of(thing, x, along=True)).named(f"Centre to {thing.called}"), thing.called, x)
    if after:
        x = min(x for x, _ in after)
        right = Side((edge_of(thing, x, along=True) - one.centre).named(f"Centre to {thing.called}"), thing.called, x)
    return left, right


_FAR: Final = 40_000.0


_EDGES: Final = 4


def _wall_is_before(thing: Thing, at: float, *, along: bool) -> bool:
    """Whether the wall of a pre-wall is at the smaller measure."""
    axis = 0 if along else 1
    return min(place[axis] for place in thing.shape) < at - _TOUCHES
