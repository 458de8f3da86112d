"""Whether two WC branches come into the stack at one place."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.design import WITH_BOSSES
from tundish.layout.room import Placed, Room
from tundish.measure import show_length
from tundish.rules.pipes import doubled, opposite, served, to_stack
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule(
    "drainage/opposed",
    figures=("drainage.crossflow", "drainage.branch_room"),
    source="opposite one another: Approved Document H and EN 12056-2, from memory; one above the other: own rule, what a fitting takes",
)
def opposed(room: Room, book: Book) -> Iterator[Finding]:
    """Two WC branches come into the stack apart, or through one fitting.

    Opposite one another and at one height they come into one double branch, swept, which is then on the list in place of two; else at
    least as far apart as what one sends across may rise in the other. On one side, apart by the length of a branch and its couplings.
    """
    pairs = doubled(room)
    for one, other in combinations(to_stack(room, "soil"), 2):
        if one.enters is not None and other.enters is not None:
            across = opposite(one, other)
            least = book.figure("drainage.crossflow" if across else "drainage.branch_room")
            has, two = _apart(one.enters, other.enters), (served(room, one), served(room, other))
            place = f"{two[0].name} and {two[1].name}"
            if (one, other) in pairs:
                yield Finding("Branches apart in the stack", "Falls", "passes", has, "Guidance", least.note, message=_DOUBLE, place=place)
                continue
            state = judge(has, least, None, "look")
            message = "" if state == "passes" else f"{show_length(least.value - has.value)} too near: {_wanted(across=across)}."
            ways = tuple(_plain(two)) if across and state != "passes" else ()
            yield Finding("Branches apart in the stack", "Falls", state, has, "Guidance", least.note, least, None, message, place, ways)


_DOUBLE: Final = "One double branch, swept, takes both: it is on the list in place of two."


def _wanted(*, across: bool) -> str:
    if across:
        return "one double branch, swept, takes two in place of two fittings, where neither is to have bosses"
    return "let the farther one into the branch of the nearer, and not into the stack; strike out on Materials what is then not needed"


def _plain(two: tuple[Placed, Placed]) -> Iterator[WayOut]:
    """Where the bosses of one alone are in the way."""
    bossed = [one for one in two if one.choice.branch == WITH_BOSSES]
    if len(bossed) == 1:
        words = f"Let {bossed[0].name} in without bosses: one double branch takes both, and wastes that went into bosses want straps."
        yield WayOut(words, f"{bossed[0].path}.branch", "plain")


def _apart(one: Figure, other: Figure) -> Figure:
    return (one - other if one.value >= other.value else other - one).named("One entry above the other")
