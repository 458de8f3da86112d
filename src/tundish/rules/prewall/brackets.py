"""What joins the steel of the pre-wall."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import several
from tundish.rules.members import RAIL_NOGGIN, TRIMMER, UPRIGHT, WALL_TIE, marked
from tundish.rules.rule import Need, rule


@rule("prewall/brackets", figures=("prewall.bracket_each_upright", "prewall.bracket_each_tie"), source="common practice")
def brackets(room: Room, book: Book) -> Iterator[Need]:
    """Each upright, trimmer and rail noggin is held by a bracket at both ends and each tie by one at both ends.

    Steel only. A tie has a corner bracket at the upright and a wall foot at the wall.
    """
    if not room.of_steel:
        return
    uprights, ties, trimmers = (len(marked(room, each)) for each in (UPRIGHT, WALL_TIE, TRIMMER))
    of_uprights = (several(uprights, "Uprights") * book.figure("prewall.bracket_each_upright")).named("Both ends of uprights")
    of_ties = (several(ties, "Wall ties") * book.figure("prewall.bracket_each_tie")).named("Wall ties, one end")
    brackets, why = of_uprights + of_ties, f"{uprights} uprights, {ties} ties"
    if trimmers:
        brackets += (several(trimmers, "Trimmers") * book.figure("prewall.bracket_each_upright")).named("Both ends of trimmers")
        why += f", {trimmers} trimmers"
    noggins = len(marked(room, RAIL_NOGGIN))
    if noggins:
        brackets += (several(noggins, "Rail noggins") * book.figure("prewall.bracket_each_upright")).named("Both ends of rail noggins")
        why += f", {noggins} rail noggins"
    yield Need(brackets.named("Corner brackets"), "frames", why, role="corner bracket")
    if ties:
        yield Need(of_ties, "frames", f"{ties} ties at the wall", role="wall foot")
