"""How much floor is clear before an appliance or beside a bath, and how much whoever uses it needs."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, number, smallest
from tundish.layout.around import Thing
from tundish.layout.clip import box, common
from tundish.layout.footprints import finished, of_ware
from tundish.layout.room import Placed, Room
from tundish.layout.walls import Point, across
from tundish.rules.sides import edge_of

BEFORE: Final = (
    "space.front", "space.front_basin", "space.front_hand", "space.front_urinal", "space.shower", "space.hand_basin", "space.headroom",
    "access.clear_wc", "access.clear_basin", "access.clear_urinal", "access.clear_shower",
)  # fmt: skip
"""The figures of what is wanted before an appliance."""
BESIDE: Final = (
    "space.beside_bath", "space.bath_wide", "space.beside_tray", "space.tray_wide", "space.headroom", "access.clear_bath",
)  # fmt: skip
"""The figures of what is wanted beside a bath or a tray."""
WASHED_IN: Final = ("bath", "shower tray")


def for_a_wheelchair(room: Room) -> bool:
    """Whether somebody uses the room from a wheelchair."""
    design = room.plan.design
    return any(each.person == "wheelchair user" for each in design.users) or any(each.kind == "accessible wc" for each in design.appliances)


def for_hands_alone(one: Placed, book: Book) -> bool:
    """Whether it is a basin so narrow that only hands are washed in it."""
    return one.kind == "basin" and one.ware.size("width").value <= book.figure("space.hand_basin").value


def wanted_before(room: Room, one: Placed, book: Book) -> Figure | None:
    """How much floor whoever uses an appliance needs before it; None of what nobody stands at."""
    if for_a_wheelchair(room):
        key = _FROM_A_WHEELCHAIR.get(one.kind)
    else:
        key = "space.front_hand" if for_hands_alone(one, book) else _STANDING.get(one.kind)
    return book.figure(key) if key else None


def clear_before(room: Room, one: Placed, head_room: float) -> Figure:
    """From its front edge to the wall opposite, or to what stands before it: what stays, or what is on another pre-wall.

    What is higher than a head does not count; nor, before a shower valve, the tray or bath that it is over.
    """
    deep, met = _deep(room, one), _met(room, one, head_room)
    if met is not None:
        deep = smallest(deep, edge_of(met[1], met[0], along=False), label=f"Wall to what is before {one.name}")
    return (deep - room.figures["finished_face"] - one.ware.size("projection")).named(f"Clear floor before {one.name}")


def what_is_before(room: Room, one: Placed, head_room: float) -> str:
    """What the clear floor before an appliance ends at: the wall opposite, or what stands nearer than that."""
    met = _met(room, one, head_room)
    return met[1].name if met is not None and met[0] < _deep(room, one).value else "the wall opposite"


def stood_on(room: Room, one: Placed, book: Book) -> tuple[Point, ...]:
    """The floor that is wanted before an appliance, in plan; nothing of what nobody stands at."""
    wanted = wanted_before(room, one, book)
    return () if wanted is None else _before(room, one, wanted.value)


def baths_and_trays(room: Room) -> tuple[Thing, ...]:
    """The baths and shower trays that stay in the room."""
    return tuple(each for each in room.around.of("obstacle") if _washed_in(room, each))


def is_bath(room: Room, thing: Thing) -> bool:
    """Whether it is a bath, and not a tray."""
    return _what(room, thing) == "bath"


def clear_beside(room: Room, thing: Thing, wide: float, head_room: float) -> Figure:
    """The most that is clear beside a bath or tray over so much of one of its sides; of a bath only its long ones count."""
    edges = tuple(pairwise((*thing.shape, thing.shape[0])))
    longest = max(math.dist(*each) for each in edges)
    sides = [each for each in edges if math.dist(*each) > longest - 1 or not is_bath(room, thing)]
    things = [each for each in _in_the_way(room, head_room) if each is not thing]
    things += [Thing("ware", one.name, one.path, of_ware(room, one), 0.0, 0.0) for one in room.framed]
    things.append(Thing("prewall", "the pre-wall", room.prewall_path, finished(room), 0.0, 0.0))
    return number(round(max(_beside(room, each, wide, things) for each in sides), 1), label=f"Clear floor beside the {thing.name}")


_FAR: Final = 40_000.0
_GRACE: Final = 1.0
_STANDING: Final = {
    "wc": "space.front", "bidet": "space.front", "basin": "space.front_basin", "urinal": "space.front_urinal",
    "shower valve": "space.shower",
}  # fmt: skip
_FROM_A_WHEELCHAIR: Final = {
    "wc": "access.clear_wc", "bidet": "access.clear_wc", "basin": "access.clear_basin", "urinal": "access.clear_urinal",
    "shower valve": "access.clear_shower",
}  # fmt: skip


def _before(room: Room, one: Placed, far: float) -> tuple[Point, ...]:
    """So much floor before an appliance, as wide as it is."""
    front, half = room.figures["finished_face"].value + one.ware.size("projection").value, one.ware.size("width").value / 2
    return box(one.centre.value - half, one.centre.value + half, front, front + far)


def _deep(room: Room, one: Placed) -> Figure:
    """How deep the room is at an appliance: in a room of more corners, the least across its width."""
    if room.box and room.corner is None:
        return room.figures["room_depth"]
    half = one.ware.size("width").value / 2
    places = (one.centre.value - half, one.centre.value, one.centre.value + half)
    beyond = room.depth.value if room.corner else 0.0
    return number(round(min(across(room.sides, room.line, x, beyond) for x in places), 1), label=f"Wall to wall before {one.name}")


def _in_the_way(room: Room, head_room: float) -> list[Thing]:
    return [each for each in room.around.of("obstacle", "ware", "prewall") if each.bottom < head_room]


def _met(room: Room, one: Placed, head_room: float) -> tuple[float, Thing] | None:
    """How far out of the wall the first thing before an appliance stands, and what it is; None where there is none."""
    things = [each for each in _in_the_way(room, head_room) if one.kind != "shower valve" or not _washed_in(room, each)]
    return _first(_before(room, one, _FAR), things)


def _first(strip: Sequence[Point], things: Sequence[Thing]) -> tuple[float, Thing] | None:
    """How far out of the wall the first of these in a strip begins, and what it is; None where there is none."""
    met = [(min(y for _, y in over), each) for each in things if (over := common(strip, each.shape))]
    return min(met, key=lambda one: one[0], default=None)


def _washed_in(room: Room, thing: Thing) -> bool:
    return thing.what == "obstacle" and _what(room, thing) in WASHED_IN


def _what(room: Room, thing: Thing) -> str:
    return room.plan.survey.obstacles[int(thing.path.rpartition(".")[2])].what


def _beside(room: Room, side: tuple[Point, Point], wide: float, things: Sequence[Thing]) -> float:
    """How far it is clear out of one side: at its start, its middle or its end, wherever that is most."""
    (ax, ay), (bx, by) = side
    long = math.dist(*side)
    along, out = ((bx - ax) / long, (by - ay) / long), ((by - ay) / long, (ax - bx) / long)

    def seen(place: Point) -> Point:
        dx, dy = place[0] - ax, place[1] - ay
        return dx * along[0] + dy * along[1], dx * out[0] + dy * out[1]

    shapes = [tuple(seen(each) for each in thing.shape) for thing in things]
    walls = [(seen(room.line.on_wall(each.start)), seen(room.line.on_wall(each.end))) for each in room.sides]
    wide = min(wide, long)
    starts = dict.fromkeys((0.0, (long - wide) / 2, long - wide))
    return max(min(_nearest(start + _GRACE, start + wide - _GRACE, shapes, walls)) for start in starts)


def _nearest(left: float, right: float, shapes: Sequence[Sequence[Point]], walls: Sequence[tuple[Point, Point]]) -> Iterator[float]:
    """How far out everything in a strip begins."""
    yield _FAR
    for shape in shapes:
        yield from (y for _, y in common(box(left, right, 0.0, _FAR), shape))
    for (ax, ay), (bx, by) in walls:
        low, high = max(min(ax, bx), left), min(max(ax, bx), right)
        if low < high:
            outs = [ay + (by - ay) * (x - ax) / (bx - ax) for x in (low, high)]
            if max(outs) > -_GRACE:
                yield max(min(outs), 0.0)
