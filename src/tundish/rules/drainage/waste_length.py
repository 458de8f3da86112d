"""Whether a waste is short enough for its size."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.figure import converted
from tundish.layout.design import BY_VALVE
from tundish.layout.room import Room
from tundish.rules.pipes import served
from tundish.rules.rule import Finding, judge, rule
from tundish.rules.vents import vented, vented_by


@rule(
    "drainage/waste-length",
    figures=("drainage.waste_32_most", "drainage.waste_40_most", "drainage.waste_50_most", "discharge.vented_most"),
    source="Approved Document H, diagram 3; Plumbing Book 1, table 9.1; vented: EN 12056-2 system I, as a pipe catalogue has it",
)
def waste_length(room: Room, book: Book) -> Iterator[Finding]:
    """A waste is no longer than its size may be without a vent; vented it may be longer.

    EN 12056-2 gives 32 and 40 pipe no lengths in the systems of the continent: whatever the rule set, Approved Document H is held to.
    """
    for run in room.pipes_of("waste"):
        one = served(room, run)
        has, most = converted(run.run, "m", "Length of waste"), book.figure(f"drainage.waste_{run.size}_most")
        if one.choice.vented == BY_VALVE:
            most = vented(most, book)
        state = judge(has, None, most)
        message, ways = (
            ("", ()) if state == "passes" else ("Bring it nearer to the stack, or ventilate the waste.", vented_by(one, has, book))
        )
        yield Finding("Length of waste", "Falls", state, has, "Regulation", most.note, None, most, message, one.name, ways)
