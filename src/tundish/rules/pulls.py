"""How hard a frame pulls at what holds its head."""

from __future__ import annotations

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Placed, Room


def pull(room: Room, book: Book, one: Placed) -> Figure:
    """The test load at the ware's front edge, by its reach from the frame, over the height of the brackets; kN."""
    reach = (room.thickness + one.ware.size("projection")).named("Frame front to front edge")
    return (book.figure(f"loads.{one.kind}") * reach / one.figures["bracket"]).named(f"Pull at the head of {one.name}")
