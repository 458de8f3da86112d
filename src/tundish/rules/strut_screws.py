"""What holds a wall strut to a stud wall: how many screws, and what each may be pulled with, by what lies behind it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.design import NOGGINS, PLY
from tundish.layout.room import Member, Placed, Room
from tundish.rules.amounts import bare, several
from tundish.rules.grounds import into_wall, lining, on_timber_studs
from tundish.rules.pulls import declared, shares
from tundish.rules.screws import design_pull, grips, pull_through

COUNTED: Final = ("fixings.each_wall_stud", "fixings.each_noggin", "fixings.each_ply_stud")
HOLDING: Final = (*("fixings.timber_density", "fixings.ply_density", "fixings.kmod", "fixings.gamma_m", "fixings.lining", "fixings.lath"),)
"""The figures of the rule book that these work with."""


def on_ply(room: Room) -> bool:
    """Whether its struts are bolted to ply that is screwed over the wall studs."""
    return room.prewall.backing == PLY


def on_noggins(room: Room, strut: Member) -> bool:
    """Whether a strut has noggins between the wall studs behind it; between metal studs there are none."""
    return room.prewall.backing == NOGGINS and on_timber_studs(room, strut.x)


def screws_over(room: Room, book: Book, strut: Member, studs: int, label: str) -> Figure:
    """How many screws hold a strut over so many wall studs, in the noggins between them or through the ply behind it."""
    if on_ply(room):
        return (several(studs, "Wall studs crossed") * bare(book.figure("fixings.each_ply_stud"))).named(label)
    found = (several(studs, "Wall studs crossed") * bare(book.figure("fixings.each_wall_stud"))).named("Screws into wall studs")
    if on_noggins(room, strut):
        found += several(studs - 1, "Noggins between them") * bare(book.figure("fixings.each_noggin"))
    return found.named(label)


def hardest(room: Room, book: Book, strut: Member, held: Sequence[Placed]) -> tuple[Figure, Figure]:
    """The pull on each of the hardest pulled screws, and how many these are: all of the strut together, or those near one frame."""
    found = [(force, screws_over(room, book, strut, studs, "Screws of the wall strut")) for force, studs in shares(room, book, strut, held)]
    force, screws = max(found, key=lambda each: each[0].value / each[1].value)
    return (force / screws).named(f"Pull on each strut screw of {', '.join(one.name for one in held)}"), screws


def grip_of(room: Room, book: Book, strut: Member, screws: float) -> Figure | None:
    """What each of so many screws may be pulled with: into timber by EN 1995-1-1, else as the maker declares; None where that is not known.

    Past the strut and the boards on the wall; or past the ply, let in instead of them, where the head may pull through it.
    """
    fixing = book.role(into_wall(room, strut.x))
    ply = book.role("backing ply").size("thickness") if on_ply(room) else None
    if not on_timber_studs(room, strut.x):
        holds = declared(fixing)[1]
    elif ply is None:
        holds = grips(
            book, fixing, (room.strut.size("thickness") + lining(room, book, strut.x)).named("Strut and boards on the wall"), screws
        )
    else:
        holds = grips(book, fixing, ply, screws)
    if holds is None or ply is None or not fixing.has("head"):
        return holds
    density = book.figure("fixings.ply_density").value
    through = design_pull(book, pull_through(fixing.bare("head"), density), screws, f"Head of {fixing.bare('head'):g} through ply")
    return through if through.value < holds.value else holds
