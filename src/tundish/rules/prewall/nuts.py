"""What bolts the steel of the pre-wall together."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import Figure, total
from tundish.layout.room import Room
from tundish.rules.amounts import bare, each, several
from tundish.rules.members import RAIL_NOGGIN, TRIMMER, UPRIGHT, WALL_STRUT, WALL_TIE, marked
from tundish.rules.rule import Need, rule


@rule(
    "prewall/nuts",
    figures=("prewall.bracket_each_upright", "prewall.bracket_each_tie", "prewall.nuts_each_bracket"),
    source="common practice",
)
def nuts(room: Room, book: Book) -> Iterator[Need]:
    """Two channel nuts and bolts for each corner bracket, one for each wall foot and each tie rod on a strut."""
    parts = [*_in_steel(room, book), *_on_struts(room)]
    if parts:
        amount = total(parts, "Nuts and bolts")
        yield Need(amount, "frames", "brackets, wall feet, tie rods", role="channel nut")
        yield Need(amount, "frames", "brackets, wall feet, tie rods", role="channel bolt")


def _in_steel(room: Room, book: Book) -> Iterator[Figure]:
    if not room.of_steel:
        return
    ties = several(len(marked(room, WALL_TIE)), "Wall ties")
    feet = ties * book.figure("prewall.bracket_each_tie")
    uprights = several(len(marked(room, UPRIGHT + TRIMMER + RAIL_NOGGIN)), "Uprights, trimmers, rail noggins") * book.figure(
        "prewall.bracket_each_upright"
    )
    brackets = uprights.named("Brackets of uprights") + feet.named("Brackets of ties")
    yield (brackets.named("Corner brackets") * bare(book.figure("prewall.nuts_each_bracket"))).named("In corner brackets")
    yield feet.named("In wall feet")


def _on_struts(room: Room) -> Iterator[Figure]:
    struts = marked(room, WALL_STRUT)
    if struts and room.corner is not None:
        yield each(sum(len(one.pulled) for one in struts), "Tie rods on struts")
    elif struts:
        for one in room.framed:
            yield one.frame.size("brackets").named(f"Tie rods of {one.name} on its strut")
        keys = {one.key for one, _ in room.also_held}
        others = sum(key in keys for strut in struts for key, _ in strut.pulled)
        if others:
            yield each(others, "Tie rods of the corner on it")
