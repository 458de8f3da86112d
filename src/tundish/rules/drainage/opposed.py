"""Whether two WC branches come into the stack at one place."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.pipes import opposite, served, to_stack
from tundish.rules.rule import Finding, judge, rule


@rule(
    "drainage/opposed",
    figures=("drainage.crossflow", "drainage.branch_room"),
    source="opposite one another: Approved Document H and EN 12056-2, from memory; one above the other: own rule, what a fitting takes",
)
def opposed(room: Room, book: Book) -> Iterator[Finding]:
    """Two WC branches come into the stack apart, or through one fitting.

    Opposite one another at least as far apart as what one sends across may rise in the other, or into one double branch; on one side, the
    length of a branch and its couplings.
    """
    for one, other in combinations(to_stack(room, "soil"), 2):
        if one.enters is None or other.enters is None:
            continue
        across = opposite(one, other)
        least = book.figure("drainage.crossflow" if across else "drainage.branch_room")
        has = _apart(one.enters, other.enters)
        state = judge(has, least, None, "look")
        message = ""
        if state != "passes":
            what = (
                "one double branch, swept, takes both in place of two"
                if across
                else "let the farther one into the branch of the nearer, and not into the stack"
            )
            message = f"{show_length(least.value - has.value)} too near: {what}; strike out on Materials what is then not needed."
        place = f"{served(room, one).name} and {served(room, other).name}"
        yield Finding("Branches apart in the stack", "Falls", state, has, "Guidance", least.note, least, None, message, place)


def _apart(one: Figure, other: Figure) -> Figure:
    return (one - other if one.value >= other.value else other - one).named("One entry above the other")
