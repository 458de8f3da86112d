"""Whether a WC branch is short enough to need no vent of its own."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted
from tundish.layout.room import Room
from tundish.rules.pipes import served
from tundish.rules.rule import Finding, judge, rule


@rule("drainage/branch-length", figures=("drainage.wc_length_most",), source="Approved Document H, diagram 3: a single WC branch")
def branch_length(room: Room, book: Book) -> Iterator[Finding]:
    """A single WC branch is no longer than it may be without a vent.

    Table 2 of the same document allows 15 m for a common branch of several WCs; the shorter is used.
    """
    most = book.figure("drainage.wc_length_most")
    for run in room.pipes_of("soil"):
        has = converted(run.run, "m", "Length of branch")
        state = judge(has, None, most)
        message = "" if state == "passes" else "Bring the pan nearer to the stack, or ventilate the branch."
        yield Finding(
            "Length of WC branch", "Falls", state, has, "Regulation", most.note,
            None, most, message, served(room, run).name,
        )  # fmt: skip
