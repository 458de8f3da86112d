"""How hard a frame pulls at what holds its head."""

from __future__ import annotations

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Member, Placed, Room


def pull(room: Room, book: Book, one: Placed) -> Figure:
    """The test load at the ware's front edge, by its reach from the frame, over the height of the brackets; kN."""
    reach = (room.thickness + one.ware.size("projection")).named("Frame front to front edge")
    return (book.figure(f"loads.{one.kind}") * reach / one.figures["bracket"]).named(f"Pull at the head of {one.name}")


def held_by(room: Room, strut: Member) -> list[Placed]:
    """The frames whose wall brackets lie on a strut."""
    right, top = strut.x + strut.length.value, strut.z + strut.section[0]
    return [
        one
        for one in room.tied
        if strut.z <= one.figures["bracket"].value <= top
        and strut.x <= one.figures["bracket_left"].value <= one.figures["bracket_right"].value <= right
    ]
