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
    uprights, ties = len(marked(room, UPRIGHT)), len(marked(room, WALL_TIE))
    of_uprights = (several(uprights, "Uprights") * book.figure("prewall.bracket_each_upright")).named("Both ends of uprights")
    of_ties = (several(ties, "Wall ties") * book.figure("prewall.bracket_each_tie")).named("Wall ties, one end")
    brackets, why = of_uprights + of_ties, f"{uprights} uprights, {ties} ties"
    for what, letter in (("trimmers", TRIMMER), ("rail noggins", RAIL_NOGGIN)):
        count = len(marked(room, letter))
        if count:
            ends = several(count, what.capitalize()) * book.figure("prewall.bracket_each_upright")
            brackets += ends.named(f"Both ends of {what}")
            why += f", {count} {what}"
    yield Need(brackets.named("Corner brackets"), "frames", why, role="corner bracket")
    if ties:
        yield Need(of_ties, "frames", f"{ties} ties at the wall", role="wall foot")
