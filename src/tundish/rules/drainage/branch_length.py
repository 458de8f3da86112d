"""Whether a WC branch is short enough to need no vent of its own."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted
from tundish.layout.design import BY_VALVE
from tundish.layout.room import PipeRun, Room
from tundish.measure import show_number
from tundish.rules.drained_by import LENGTHS, branch_longest, differing, others
from tundish.rules.pipes import served
from tundish.rules.rule import Finding, judge, rule
from tundish.rules.vents import vented, vented_by


@rule(
    "drainage/branch-length",
    figures=(*LENGTHS, "discharge.vented_most"),
    source="Approved Document H, diagram 3: a single WC branch; EN 12056-2, table 5, as a pipe catalogue has it, and from memory",
)
def branch_length(room: Room, book: Book) -> Iterator[Finding]:
    """A single WC branch is no longer than it may be without a vent, by the rule set that was chosen; vented it may be longer.

    Table 2 of Approved Document H allows 15 m for a common branch of several WCs; the shorter is used.
    """
    by = room.plan.design.piping.drains_by
    for run in room.pipes_of("soil"):
        one = served(room, run)
        has, most = converted(run.run, "m", "Length of branch"), branch_longest(by, book)
        if one.choice.vented == BY_VALVE:
            most = vented(most, book)
        state = judge(has, None, most)
        wrong = "" if state == "passes" else "Bring the pan nearer to the stack, or ventilate the branch."
        words = (wrong, "" if one.choice.vented == BY_VALVE else _differing(room, run, state, book), f"Reckoned by {by}.")
        yield Finding(
            "Length of WC branch", "Falls", state, has, "Regulation", most.note,
            None, most, " ".join(each for each in words if each), one.name, () if state == "passes" else vented_by(one, has, book),
        )  # fmt: skip


def _differing(room: Room, run: PipeRun, state: str, book: Book) -> str:
    has = converted(run.run, "m")
    limits = ((each, branch_longest(each, book)) for each in others(room.plan))
    return differing((each, f"at most {show_number(most.value, None)} m") for each, most in limits if judge(has, None, most) != state)
