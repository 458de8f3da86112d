"""The pieces of a pre-wall by the letter of their mark, and as pieces to cut."""

from __future__ import annotations

from collections.abc import Iterable

from tundish.layout.marks import bare
from tundish.layout.room import Member, Room
from tundish.rules.rule import Cut

UPRIGHT, TOP_RAIL, FLOOR_RAIL, WALL_TIE, WALL_STRUT, NOGGIN, FLOOR_NOGGIN, TRIMMER, RAIL_NOGGIN = "UTFWSNKRG"
"""Letters of the marks. In timber the uprights are studs, the rails plates."""


def marked(room: Room, letters: str) -> tuple[Member, ...]:
    """The members whose mark starts with one of the letters."""
    return tuple(one for one in room.members if bare(one.mark)[0] in letters)


def studs_crossed(room: Room, strut: Member) -> tuple[float, ...]:
    """Where the studs of the wall are that a strut on it crosses."""
    return tuple(place for place in room.wall_studs if strut.x <= place <= strut.x + strut.length.value)


def cuts_of(members: Iterable[Member]) -> tuple[Cut, ...]:
    """Each member as a piece to cut."""
    return tuple(Cut(one.mark, one.length, one.what, one.where) for one in members)
