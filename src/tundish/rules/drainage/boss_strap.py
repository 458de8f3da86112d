"""Whether each waste can be strapped to the stack where it comes in."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.design import WITH_BOSSES
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.pipes import LARGEST_BOSS, in_branch, off_branch, served
from tundish.rules.rule import Finding, State, WayOut, judge, rule


@rule("drainage/boss-strap", figures=("drainage.strap_clear",), source="own rule: a strap clamps on plain pipe only")
def boss_strap(room: Room, book: Book) -> Iterator[Finding]:
    """A boss strap clamps on plain pipe, not on the fitting of a branch.

    How far the boss is above or below the middle of the branch. Into a branch with bosses a waste goes without a strap.
    """
    least = book.figure("drainage.strap_clear")
    for run in room.pipes_of("waste"):
        near = off_branch(room, run, book)
        if near is None:
            continue
        branch, has = near
        own_boss = in_branch(room, run, book)
        state: State = "passes" if own_boss else judge(has, least, None)
        one = served(room, run)
        ways: tuple[WayOut, ...] = ()
        message = f"It goes into a boss of the branch of {branch.pan}." if own_boss else ""
        if state != "passes":
            message = (
                f"The boss of {one.name} comes {show_length(least.value - has.value)} mm too near to the branch of {branch.pan}: the strap "
                f"would sit on its fitting. Take a branch with bosses, or bring the waste in elsewhere."
            )
            if run.size <= LARGEST_BOSS:
                words = f"Let {branch.pan} in with a branch with bosses: {one.name} goes into one of them, and its strap is left out."
                ways = (WayOut(words, f"{branch.path}.branch", WITH_BOSSES),)
        yield Finding(
            "Boss strap clear of the branch fitting", "Falls", state, has, "Own rule", least.note,
            None if own_boss else least, None, message, one.name, ways,
        )  # fmt: skip
