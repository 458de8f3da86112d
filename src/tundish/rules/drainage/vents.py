"""Air for branches, wastes and the stack."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.field import read
from tundish.layout.design import BY_VALVE
from tundish.layout.room import Placed, Room
from tundish.rules.amounts import each
from tundish.rules.drained_by import FLOWS, flow_in, unit_of
from tundish.rules.pipes import served
from tundish.rules.rule import Finding, Need, judge, rule

_VALVES: Final = {
    110: ("air valve 110", "soil branch 110"),
    50: ("air valve 40", "waste tee 50", "waste reducer 50-40"),
    40: ("air valve 40", "waste tee 40"),
    32: ("air valve 40", "waste tee 32", "waste reducer 40-32"),
}
"""By the size of the pipe: the valve, the tee that it stands on, and what fits one into the other."""


@rule(
    "drainage/vents",
    figures=(*FLOWS, "discharge.air_branch", "discharge.air_stack"),
    source="EN 12056-2, as a digest of a building regulation has it: 8 times the flow for a stack, 1 to 2 for a branch; EN 12380",
)
def vents(room: Room, book: Book) -> Iterator[Need | Finding]:
    """A branch, a waste or a stack that is vented by an air admittance valve has one that lets in enough air.

    A branch gets a valve on a tee where that was chosen, above the overflow of its appliance and where it can be reached. A stack that ends
    in a valve inside wants eight times its flow, and an open vent elsewhere on the drain.
    """
    for run in room.pipes_of("soil", "waste"):
        one = served(room, run)
        if one.choice.vented == BY_VALVE:
            for role in _VALVES[run.size]:
                yield Need(each(1, one.name), "first fix", f"vent of {one.name}", role=role)
            yield _air(room, one, book, _VALVES[run.size][0])
    if room.first and room.plan.survey.stack.vent.startswith("by a valve"):
        yield _of_stack(room, book)


def _air(room: Room, one: Placed, book: Book, role: str) -> Finding:
    valve = book.role(role)
    times = book.figure("discharge.air_branch")
    least = (unit_of(room.plan, one.choice, book) * times).named("Air for the branch")
    has = valve.size("air")
    state = judge(has, least, None)
    message = "" if state == "passes" else f"{valve.name} lets in too little: take a larger one, or vent the branch to the open."
    return Finding("Air for the branch", "Falls", state, has, "Guidance", times.note, least, None, message or _REACHED, one.name)


def _of_stack(room: Room, book: Book) -> Finding:
    from_survey = read(room.plan.survey.stack, "valve_air", f"{room.path}.survey.stack")
    flow, _ = flow_in(room.plan, read(room.plan.survey.stack, "others", f"{room.path}.survey.stack"), book)
    least = (flow * book.figure("discharge.air_stack")).named("Air for the stack")
    if from_survey is None:
        words = f"Read on the valve how much it lets in, and type it on Survey, Stack. {_REACHED}"
        return Finding("Air for the stack", "Falls", "cannot tell", None, "Guidance", least.note, least, None, words)
    state = judge(from_survey, least, None)
    wrong = "" if state == "passes" else "A larger valve, or an open vent above the roof. "
    return Finding("Air for the stack", "Falls", state, from_survey, "Guidance", least.note, least, None, f"{wrong}{_REACHED}")


_REACHED: Final = "It stands above the overflow of the highest appliance, where it can be reached and is not boarded in tight."
