"""What is let into the front of a pre-wall, niches and access openings, and what stands or hangs in front of its wall."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.documents.drawing import Box, Line, Mark, Words
from tundish.field import must_read, read
from tundish.layout.design import Hatch, Niche
from tundish.layout.room import Room

HATCH_SIDE: Final = 300.0
"""How large an access opening is drawn that has no hatch of a known size, mm."""


def niche_key(place: int) -> str:
    """The id of a niche as a piece of the drawing."""
    return f"niche-{place + 1}"


def hatch_key(place: int) -> str:
    """The id of an access opening as a piece of the drawing."""
    return f"hatch-{place + 1}"


def niche_name(niche: Niche, place: int) -> str:
    """What a niche is called."""
    return niche.name.strip() or f"Niche {place + 1}"


def hatch_name(hatch: Hatch, place: int) -> str:
    """What an access opening is called."""
    return hatch.name.strip() or f"Access opening {place + 1}"


def pieces(room: Room) -> list[tuple[str, str]]:
    """Ids and names of niches and access openings."""
    niches = [(niche_key(place), niche_name(each, place)) for place, each in enumerate(room.prewall.niches)]
    return niches + [(hatch_key(place), hatch_name(each, place)) for place, each in enumerate(room.prewall.hatches)]


def front(room: Room, *, named: bool = True) -> Iterator[Mark]:
    """Niches with their depth shown as a second edge, access openings with a cross corner to corner."""
    floor = room.finished_floor.value
    for place, niche in enumerate(room.prewall.niches):
        x, z = must_read(niche, "from_left").value, floor + must_read(niche, "bottom").value
        wide, high, key = must_read(niche, "width").value, must_read(niche, "height").value, niche_key(place)
        yield Box(x, z, wide, high, "ware", key)
        edge = min(_EDGE, wide / 4, high / 4)
        yield Box(x + edge, z + edge, wide - 2 * edge, high - 2 * edge, "hidden", key, filled=False)
        if named:
            yield Words(x + wide / 2, z + high / 2, niche_name(niche, place), piece=key)
    for place, hatch in enumerate(room.prewall.hatches):
        x, z, key = must_read(hatch, "from_left").value, floor + must_read(hatch, "bottom").value, hatch_key(place)
        yield Box(x, z, HATCH_SIDE, HATCH_SIDE, "ware", key)
        yield Line(x, z, x + HATCH_SIDE, z + HATCH_SIDE, "hidden", key)
        yield Line(x, z + HATCH_SIDE, x + HATCH_SIDE, z, "hidden", key)
        if named:
            yield Words(x + HATCH_SIDE / 2, z - _UNDER, hatch_name(hatch, place), piece=key)


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
                    yield Words(x + wide / 2, z + high / 2, obstacle.name.strip() or obstacle.what, style="hidden")
    for opening in room.plan.survey.openings:
        sill = read(opening, "sill")
        if opening.wall == room.wall and sill is not None and sill.value < top:
            x, wide = must_read(opening, "from_left").value, must_read(opening, "width").value
            high = min(must_read(opening, "height").value, top - sill.value)
            yield Box(x, sill.value, max(min(wide, width - x), 0.0), high, "hidden", filled=False)
            if named:
                yield Words(x + wide / 2, sill.value + high - _UNDER, opening.kind, style="hidden")


_EDGE = 18.0
_UNDER = 45.0
