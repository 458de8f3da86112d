"""Whether the board has support often enough."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, judge, rule


@rule("boards/centres", figures=("prewall.upright_centres",), source="maker's sheet of the board")
def centres(room: Room, book: Book) -> Iterator[Finding]:
    """Uprights and frame legs stand no further apart than the board may span.

    The two legs of one frame are not counted: the frame is made to be boarded over.
    """
    bays = [(one, other) for one, other in pairwise(room.supports) if not _of_one_frame(room, one, other)]
    if bays:
        one, other = max(bays, key=lambda bay: bay[1].value - bay[0].value)
        has, most = (other - one).named("Widest space between supports"), room.board.size("centres_most")
        state = judge(has, None, most)
        message = "" if state == "passes" else f"Choose a board that spans {show_length(has.value)}, or set uprights closer."
        yield Finding("Supports of the board", "Loads and tiles", state, has, "Maker", room.board.sheet, None, most, message)


def _of_one_frame(room: Room, one: Figure, other: Figure) -> bool:
    return any(each.left < one.value and other.value < each.right for each in room.placed)
