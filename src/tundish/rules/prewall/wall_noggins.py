"""Timber between the studs of a wall where these alone do not hold a strut."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import number
from tundish.layout.room import Member, Room
from tundish.rules.amounts import each, in_all
from tundish.rules.members import WALL_STRUT, marked
from tundish.rules.rule import Cut, Need, rule
from tundish.rules.strut_screws import on_noggins


@rule(
    "prewall/wall-noggins",
    figures=("prewall.wall_stud_width",),
    source="common practice; noggins for sanitary fittings: NHBC Standards 6.3.9",
)
def wall_noggins(room: Room, book: Book) -> Iterator[Need]:
    """Where it is so chosen, a noggin lies between every two wall studs that a strut crosses, with two screws at each end.

    Cut to the clear space between the studs; a strut on a wall of a corner may end on one. Metal studs take ply instead. The wall is opened
    for them, and made good.
    """
    for strut in marked(room, WALL_STRUT):
        if on_noggins(room, strut):
            cuts = tuple(_cuts(book, strut))
            yield Need(in_all([one.length for one in cuts], "noggins", f"Wall noggins, {len(cuts)}"), "frames", f"behind {strut.mark}",
                       role="timber stud", cuts=cuts)  # fmt: skip
            screws = (each(len(cuts), "Wall noggins") * number(4, "", "Screws, two at each end")).named(
                f"Screws of noggins behind {strut.mark}"
            )
            yield Need(screws, "frames", f"noggins behind {strut.mark}", role="wood screw 80")


def _cuts(book: Book, strut: Member) -> Iterator[Cut]:
    for place, (left, right) in enumerate(pairwise(strut.beside or strut.bears)):
        clear = (number(right - left, "mm", "Wall studs apart") - book.figure("prewall.wall_stud_width")).named("Wall noggin")
        yield Cut(f"{strut.mark}{chr(ord('a') + place)}", clear, "wall noggin", f"between wall studs, behind {strut.mark}")
