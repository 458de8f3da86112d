"""What boards are screwed on with."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import total
from tundish.rules.rule import Asked, Need, rule


@rule("boards/screws", figures=("boards.screws_per_m2",), source="300 apart: the usual specification clause", reads="needs")
def screws(asked: Asked, book: Book) -> Iterator[Need]:
    """Board is fixed with screws about 300 apart along every support.

    Counted by the area of the pieces, all layers. Steel takes drill points, timber coarse threads.
    """
    code = asked.room.board.code
    boards = [one.amount for one in asked.needs if one.item == code]
    if boards:
        amount = (total(boards, "Board, all layers") * book.figure("boards.screws_per_m2")).named("Board screws")
        yield Need(amount, "boarding", "all boards", role=f"board screw {'steel' if asked.room.of_steel else 'timber'}")
