"""What is in the way of a wheelchair that turns: what stands on the floor, what hangs low over it, and the swing of doors."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.around import Thing, Under
from tundish.layout.design import Appliance
from tundish.layout.footprints import finished, of_ware
from tundish.layout.room import Room
from tundish.layout.walls import Point

TURNS: Final = ("access.turn", "access.turn_under_basin", "access.level", "space.headroom")
"""The figures that it is read from."""


def in_the_way(room: Room, book: Book) -> tuple[Thing, ...]:
    """All of it, seen from the first pre-wall: pre-walls as tiled, their returns too.

    In a dwelling doors are shut, and a basin counts up to where it may come over a wheelchair. A tray that is level with the floor does
    not count, nor what is higher than a head.
    """
    head_room, over = book.figure("space.headroom").value, book.figure("access.turn_under_basin").value
    level = room.finished_floor.value + book.figure("access.level").value
    dwelling = not any(each.kind == "accessible wc" for each in room.plan.design.appliances)
    ware = [Thing("ware", one.name, one.path, of_ware(room, one), 0.0, one.figures["top"].value) for one in room.placed]
    ware += room.around.of("ware")
    low = (each for each in room.around.of("obstacle", "prewall") if each.bottom < head_room and each.top > level)
    return (
        Thing("prewall", room.prewall.name.strip() or "the pre-wall", room.prewall_path, finished(room), 0.0, room.top.value),
        *(_drawn_in(each, _choice(room, each), over) if dwelling else each for each in ware),
        *low,
        *(() if dwelling else room.around.of("swing")),
        *_low_ceilings(room, head_room),
    )


def _choice(room: Room, ware: Thing) -> Appliance:
    return room.plan.design.appliances[int(ware.path.rpartition(".")[2])]


def _drawn_in(ware: Thing, choice: Appliance, over: float) -> Thing:
    """A basin without so much of its front, but no more than half of it, for its trap is under its middle; other ware as it is."""
    if choice.kind != "basin" or choice.trap == "half pedestal":
        return ware
    left, right, far_right, far_left = ware.shape
    return replace(ware, shape=(left, right, _nearer(far_right, right, over), _nearer(far_left, left, over)))


def _nearer(far: Point, near: Point, by: float) -> Point:
    dx, dy = near[0] - far[0], near[1] - far[1]
    share = min(0.5, by / max((dx * dx + dy * dy) ** 0.5, 1.0))
    return far[0] + share * dx, far[1] + share * dy


def _low_ceilings(room: Room, head_room: float) -> Iterator[Thing]:
    """Where ceilings come down lower than a head, as far out as they do."""
    for under in room.around.unders:
        lacks = room.finished_floor.value + head_room - under.low
        if lacks > 0:
            yield Thing("under", f"the {under.name}", under.path, _low_part(under, lacks), under.low, under.low)


def _low_part(under: Under, lacks: float) -> tuple[Point, ...]:
    left, right, far_right, far_left = under.shape
    reach = ((far_left[0] - left[0]) ** 2 + (far_left[1] - left[1]) ** 2) ** 0.5
    share = min(1.0, lacks / (under.rise * reach)) if under.rise > 0 else 1.0

    def out(near: Point, far: Point) -> Point:
        return near[0] + share * (far[0] - near[0]), near[1] + share * (far[1] - near[1])

    return left, right, out(right, far_right), out(left, far_left)
