"""Ply over the studs of a wall where these alone do not hold a strut."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Room
from tundish.rules.amounts import area, each
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Cut, Need, rule
from tundish.rules.strut_screws import on_ply


@rule("prewall/wall-ply", figures=("prewall.ply_height",), source="common practice")
def wall_ply(room: Room, book: Book) -> Iterator[Need]:
    """Where it is so chosen, ply as long as the strut lies over the wall studs, and two bolts at each tie rod hold the strut to it.

    It is let into the wall in place of its boards, so that the strut stays where it is. Its screws are counted with those of the strut.
    """
    for strut in marked(room, WALL_STRUT) if on_ply(room) else ():
        high = book.figure("prewall.ply_height")
        cut = Cut(f"{strut.mark}P", strut.length, "ply", f"over the wall studs, behind {strut.mark}", high)
        yield Need(area(strut.length, high, f"Ply behind {strut.mark}"), "frames", f"behind {strut.mark}", role="backing ply", cuts=(cut,))
        bolts = (each(len(strut.pulled), "Tie rods on it") * number(2, "", "Bolts at each")).named(f"Bolts of {strut.mark}")
        for role in ("channel bolt long", "channel nut"):
            yield Need(bolts, "frames", f"{strut.mark} to its ply", role=role)
