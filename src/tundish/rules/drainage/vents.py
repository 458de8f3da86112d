"""Air for branches, wastes and the stack."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.field import read
from tundish.figure import largest
from tundish.layout.design import BY_VALVE
from tundish.layout.room import Placed, Room
from tundish.rules.amounts import each
from tundish.rules.drained_by import FLOWS, flow_in, others_in, unit_of
from tundish.rules.pipes import served
from tundish.rules.rule import Cut, Finding, Need, judge, rule
from tundish.rules.vents import VENTS, Vent


@rule(
    "drainage/vents",
    figures=(*FLOWS, "discharge.air_branch", "discharge.air_stack", "discharge.air_stub"),
    source="EN 12056-2, as a digest of a building regulation has it: 8 times the flow for a stack, 1 to 2 for a branch; EN 12380",
)
def vents(room: Room, book: Book) -> Iterator[Need | Finding]:
    """A branch, a waste or a stack that is vented by an air admittance valve has one that lets in enough air.

    A branch gets a valve on a tee where that was chosen, above the overflow of its appliance and where it can be reached, and a piece of
    pipe up to it. A stack that ends in a valve inside wants eight times its flow, and an open vent elsewhere on the drain.
    """
    runs = [run for run in room.pipes_of("soil", "waste") if served(room, run).choice.vented == BY_VALVE]
    for count, run in enumerate(runs, 1):
        one, made = served(room, run), VENTS[run.size]
        yield Need(each(1, one.name), "first fix", f"{_CALLED[run.kind]} of {one.name}", role=made.tee)
        for role in (made.valve, made.reducer):
            if role:
                yield Need(each(1, one.name), "first fix", f"vent of {one.name}", role=role)
        yield _up(one, made, book, f"{room.mark}A{count}")
        yield _air(room, one, book, made.valve)
    if room.first and room.plan.survey.stack.vent.startswith("by a valve"):
        yield _of_stack(room, book)


def _up(one: Placed, made: Vent, book: Book, mark: str) -> Need:
    """The pipe from the branch up to the overflow of its appliance, on which the valve stands."""
    low = one.figures["outlet" if "outlet" in one.figures else "waste"]
    length = largest(one.figures["top"] - low, book.figure("discharge.air_stub"), label=f"Up to the air valve, {one.name}")
    cut = Cut(mark, length, f"Vent, {one.name}", "from its tee up to the air valve")
    return Need(length, "first fix", f"vent of {one.name}", role=made.pipe, cuts=(cut,))


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
    flow, _ = flow_in(room.plan, others_in(room.plan, room.path), book)
    least = (flow * book.figure("discharge.air_stack")).named("Air for the stack")
    if from_survey is None:
        words = f"Read on the valve how much it lets in, and type it on Survey, Stack. {_REACHED}"
        return Finding("Air for the stack", "Falls", "cannot tell", None, "Guidance", least.note, least, None, words)
    state = judge(from_survey, least, None)
    wrong = "" if state == "passes" else "A larger valve, or an open vent above the roof. "
    return Finding("Air for the stack", "Falls", state, from_survey, "Guidance", least.note, least, None, f"{wrong}{_REACHED}")


_CALLED: Final = {"soil": "branch", "waste": "waste"}
_REACHED: Final = "It stands above the overflow of the highest appliance, where it can be reached and is not boarded in tight."
