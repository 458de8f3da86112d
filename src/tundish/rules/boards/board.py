"""The boards themselves, as pieces to cut."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import total
from tundish.layout.board_holes import holes_in
from tundish.layout.room import Room
from tundish.rules.amounts import area
from tundish.rules.rule import Cut, Need, rule


@rule("boards/board", figures=("boards.floor_gap",), source="common practice; joints of two layers apart: NBS clause 612")
def board(room: Room, book: Book) -> Iterator[Need]:
    """Every face of the pre-wall is boarded.

    Front, shelf and open ends, in as many layers as are chosen. Joints land on steel or timber; where other supports can be had, not
    within 100 of the side of an opening, and not on a joint of the layer behind: rows of a second layer begin with half a sheet. How
    many sheets it takes is decided when the pieces are cut.
    """
    pieces = [(piece, holes_in(room, piece) if face.key == "front" else ()) for face in room.faces for piece in face.boards]
    if pieces:
        cuts = tuple(Cut(one.mark, one.width, "board", one.where, one.height, slants=one.slants, holes=holes) for one, holes in pieces)
        yield Need(
            total([area(one.width, one.height, one.mark) for one, _ in pieces], "Boards"),
            "boarding",
            "every face",
            item=room.board.code,
            cuts=cuts,
        )
