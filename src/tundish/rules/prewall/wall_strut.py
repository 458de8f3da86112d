"""Strut that spreads a frame's pull over wall studs."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.members import WALL_STRUT, marked, to_cut
from tundish.rules.rule import Need, rule


@rule("prewall/wall-strut", figures=("prewall.strut_overhang",), source="common practice")
def wall_strut(room: Room, book: Book) -> Iterator[Need]:
    """On a stud wall a strut spreads each frame's pull over the wall studs.

    It runs from the wall stud outside one bracket to the wall stud outside the other and a little beyond, at bracket height.
    Across a corner each wall of it that is not solid has one, behind the bracket that is turned to it.
    """
    yield from to_cut(marked(room, WALL_STRUT), "wall struts", item=room.strut.code)
