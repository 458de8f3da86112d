"""What the pre-wall's own ties are fixed to the wall with."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import several
from tundish.rules.grounds import into_wall
from tundish.rules.members import WALL_TIE, marked
from tundish.rules.rule import Need, rule


@rule("fixings/ties", figures=("fixings.each_tie",), source="common practice")
def tie_fixings(room: Room, book: Book) -> Iterator[Need]:
    """Each wall foot is fixed with two fixings.

    In timber there is no wall foot: the tie itself has two.
    """
    for role, ties in Counter(into_wall(room, tie.x) for tie in marked(room, WALL_TIE)).items():
        amount = (several(ties, "Ties to the wall") * book.figure("fixings.each_tie")).named("Fixings of ties")
        yield Need(amount, "frames", f"{ties} ties to the wall", role=role)
