"""Whether anchors in a solid wall stand as far from one another and from an edge as their makers ask."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.around import Thing
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.grounds import into_wall, on_solid_wall
from tundish.rules.planning import FIRST
from tundish.rules.rule import Finding, judge, rule


@rule("fixings/anchor-places", source="maker's sheet of the anchor: the least edge and spacing at which its pull holds")
def anchor_places(room: Room, book: Book) -> Iterator[Finding]:
    """The anchors of the tie rods stand far enough apart, and far enough from the edge of a solid wall.

    An edge is the side of a door or window in that wall, and an end of it where it turns away from the room. Measured between centres, in
    the plane of the wall. Said for anchors whose sheet gives the distances. Not said of a pre-wall across a corner.
    """
    anchor = book.role(into_wall(room))
    if not on_solid_wall(room) or room.corner is not None or not (anchor.has("spacing") and anchor.has("edge")):
        return
    nearest = min(_apart(room), key=lambda each: each[0], default=None)
    if nearest is not None:
        yield _finding("Anchors of tie rods apart", nearest, anchor.size("spacing"), "Turn a wall bracket, or move one of the frames.")
    edge = min(_to_edges(room), key=lambda each: each[0], default=None)
    if edge is not None:
        mend = "Move the frame along the wall, or choose an anchor that may stand nearer to an edge."
        yield _finding("Anchor to the edge of the wall", edge, anchor.size("edge"), mend)


def _finding(title: str, found: tuple[float, str], least: Figure, mend: str) -> Finding:
    apart, place = found
    has = number(round(apart, 1), label=title)
    state = judge(has, least, None)
    short = f"{show_length(least.value - has.value)} short: here it does not hold all that its sheet says. {mend} "
    return Finding(
        title, "Loads and tiles", state, has, "Maker", least.note, least, None, ("" if state == "passes" else short) + FIRST, place
    )


def _apart(room: Room) -> Iterator[tuple[float, str]]:
    """The distances between neighbouring anchors, and whose they are."""
    every = sorted(((*at, one.name) for one in room.tied for at in _anchors(one)), key=lambda each: each[0])
    for (x1, z1, one), (x2, z2, other) in pairwise(every):
        yield math.hypot(x2 - x1, z2 - z1), one if one == other else f"{one} and {other}"


def _to_edges(room: Room) -> Iterator[tuple[float, str]]:
    for one in room.tied:
        for x, z in _anchors(one):
            for opening in _in_this_wall(room):
                yield _to(opening, x, z), f"{one.name} and {opening.name}"
            for end, away in _ends_away(room):
                if away:
                    yield abs(x - end), f"{one.name} and the end of wall {room.wall}"


def _anchors(one: Placed) -> tuple[tuple[float, float], ...]:
    return tuple((one.figures[f"bracket_{side}"].value, one.figures["bracket"].value) for side in ("left", "right"))


def _in_this_wall(room: Room) -> tuple[Thing, ...]:
    """The openings of the wall behind: those that lie flat against it."""
    return tuple(each for each in room.around.of("door", "window") if all(-_FLAT <= y <= _FLAT for _, y in each.shape))


def _to(opening: Thing, x: float, z: float) -> float:
    left, right = (pick(at for at, _ in opening.shape) for pick in (min, max))
    return math.hypot(max(left - x, 0, x - right), max(opening.bottom - z, 0, z - opening.top))


def _ends_away(room: Room) -> Iterator[tuple[float, bool]]:
    """Both ends of the wall, and whether it turns away from the room there."""
    place = next(place for place, side in enumerate(room.sides) if side.letter == room.wall)
    after = room.sides[(place + 1) % len(room.sides)]
    for end, side in ((0.0, room.sides[place]), (room.width.value, after)):
        yield end, side.angle > _STRAIGHT


_FLAT: Final = 20.0
_STRAIGHT: Final = 180.0
