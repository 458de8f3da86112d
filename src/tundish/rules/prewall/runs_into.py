"""Whether a pre-wall that ends free runs into another one of its room."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.around import Thing
from tundish.layout.clip import common
from tundish.layout.design import PreWall
from tundish.layout.footprints import finished
from tundish.layout.room import Room
from tundish.layout.widths import SHORTEST
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("prewall/runs-into", source="geometry: two frames cannot stand in one place")
def runs_into(room: Room, book: Book) -> Iterator[Finding]:
    """A pre-wall whose end is free, with its return, ends clear of every other one along a wall.

    One that goes to the corner meets the one on the next wall there, and is worked out so; one that stops a little before the corner would
    stand in it, framed, boarded and tiled where the other is, and so counted twice.
    """
    own = finished(room) if room.corner is None else ()
    for thing in room.around.of("prewall"):
        shared = common(own, thing.shape) if own else ()
        along = [x for x, _ in shared]
        if along and min(max(along) - min(along), max(y for _, y in shared) - min(y for _, y in shared)) > _TOUCHES:
            left = sum(along) / len(along) < room.start.value + room.run.value / 2
            other = _prewall(room, thing)
            if other.stands == room.prewall.stands and not room.at_wall[0 if left else 1]:
                yield _finding(room, thing, along, left=left)


_TOUCHES: Final = 1.0


def _prewall(room: Room, thing: Thing) -> PreWall:
    first, further = room.plan.design.prewall, room.plan.design.further
    place = thing.path.rpartition(".")[2]
    return further[int(place)] if place.isdecimal() else first


def _finding(room: Room, thing: Thing, along: list[float], *, left: bool) -> Finding:
    deep = math.ceil(round(max(along) - min(along), 6))
    has = number(-deep, label=f"Its end to {thing.name}")
    ways = tuple(_ways(room, thing, along, left=left))
    message = f"It runs into {thing.name}, {show_length(deep)} too far: what is in both is counted twice."
    message += " Let it end before that." if ways else " Take one of them out, or move it."
    place = "left end" if left else "right end"
    least = number(0, label="None of it in the other")
    state = judge(has, least, None)
    return Finding(f"Clear of {thing.name}", "Clearances", state, has, "Own rule", "measured", least, None, message, place, ways)


def _ways(room: Room, thing: Thing, along: list[float], *, left: bool) -> Iterator[WayOut]:
    path, end = room.prewall_path, room.start.value + room.run.value
    start = math.ceil(round(max(along) + room.thickness.value, 6)) if left else room.start.value
    last = math.floor(round(min(along) - room.thickness.value, 6)) if not left else end
    if last - start >= SHORTEST:
        words = "with a return: rails, boards and tiles shorten with it."
        if left:
            yield WayOut(f"Start it {show_length(start)} from the left wall, {words}", f"{path}.from_left", start)
        else:
            yield WayOut(f"Shorten it to {show_length(last - start)}, {words}", f"{path}.run", last - start)
    if _prewall(room, thing).wall != room.prewall.wall:
        words = "the two then meet in the corner, without a return."
        if left:
            yield WayOut(f"Start it at the left wall: {words}", f"{path}.from_left", 0.0)
        else:
            yield WayOut(f"Let it run on to the right wall: {words}", f"{path}.run", room.width.value - room.start.value)
