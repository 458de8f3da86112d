"""Whether a branch can be let into the stack as it was found."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.field import read
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.pipes import of_iron, served, to_stack
from tundish.rules.rule import Finding, judge, rule


@rule(
    "drainage/stack",
    figures=("drainage.branch_room", "drainage.stack_piece", "drainage.stack_off"),
    source="own rule: what the fittings take; their size from the sheet",
)
def stack(room: Room, book: Book) -> Iterator[Finding]:
    """The stack has a straight length for the branch and its couplings, and the diameter that they are made for.

    Into cast iron a new length of plastic is let, which takes as much as it is long.
    """
    branches = to_stack(room, "soil")
    if not branches:
        return
    surveyed, where = room.plan.survey.stack, f"{room.path}.survey.stack"
    place = ", ".join(served(room, run).name for run in branches)
    has = read(surveyed, "room_above", where)
    if has is not None:
        least = book.figure("drainage.stack_piece" if of_iron(room) else "drainage.branch_room")
        state = judge(has, least, None)
        short = show_length(least.value - has.value)
        message = "" if state == "passes" else f"{short} mm short: cut out joints or bends with it, or let the branch in elsewhere."
        yield Finding("Straight stack for the branch", "Falls", state, has, "Own rule", least.note, least, None, message, place)
    across = read(surveyed, "diameter", where)
    if across is not None:
        off, made = book.figure("drainage.stack_off"), book.role("soil pipe 110").size("diameter").named("Fittings are made for")
        least, most = (made - off).named("Least diameter for the fittings"), (made + off).named("Greatest diameter for the fittings")
        state = judge(across, least, most)
        words = f"The fittings are for {show_length(made.value)}. Measure again, or take a coupling that joins the two sizes."
        yield Finding(
            "Stack of the fittings' diameter", "Falls", state, across, "Maker", made.note,
            least, most, "" if state == "passes" else words, place,
        )  # fmt: skip
