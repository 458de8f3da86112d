"""Where discharges can go: the stack and the other waste entries that were surveyed, and which of them each appliance runs to."""

from __future__ import annotations

from collections.abc import Sequence

from tundish.figure import Figure, number
from tundish.layout.inputs import Inputs
from tundish.layout.outline import Outline
from tundish.layout.room import Outfall, Placed
from tundish.survey.pipes import Stack, WasteEntry

STACK_SIZE = 110


def outfalls_of(outline: Outline, inputs: Inputs) -> tuple[Outfall, ...]:
    """The stack first, then the entries as surveyed; an entry whose name is taken, or at no wall of the room, is told and left out."""
    found = [_stack(outline, inputs)]
    for place, entry in enumerate(outline.plan.survey.entries):
        at = f"survey.entries.{place}"
        name = entry.name.strip() or f"Entry {place + 1}"
        if _same(name, "stack") or any(_same(name, each.name) for each in found):
            inputs.tell(f"{at}.name", f"Another entry is called {name}: give this one a name of its own; until then nothing drains to it")
            continue
        if outline.standing.wall_named(entry.wall) is None:
            continue
        along, out = outline.standing.stands(inputs.sure(entry, "from_left", at), _from_wall(entry, at, inputs), entry.wall)
        found.append(
            Outfall(
                name,
                at,
                along.named(f"{name} from left wall"),
                out.named(f"{name} from its wall"),
                inputs.number(entry, "invert", at),
                int(entry.size) if entry.size.isdecimal() else STACK_SIZE,
                entry.under,
            )
        )
    return tuple(found)


def outfall_for(placed: Placed, outfalls: Sequence[Outfall], inputs: Inputs) -> Outfall:
    """Where an appliance drains to: the entry it names, or the stack; a name that no entry has is told."""
    wanted = placed.choice.drains_to.strip()
    if not wanted or _same(wanted, "stack") or _same(wanted, "the stack"):
        return outfalls[0]
    for each in outfalls[1:]:
        if _same(each.name, wanted):
            return each
    known = ", ".join(each.name for each in outfalls[1:])
    words = f"choose one of {known}, or leave it blank" if known else "add it to the other waste entries, or leave it blank"
    where = f"{placed.path.removeprefix(f'{inputs.path}.')}.drains_to"
    inputs.tell(where, f"No waste entry is called {wanted}: {words}. Until then {placed.name} drains to the stack")
    return outfalls[0]


def _from_wall(found: Stack | WasteEntry, at: str, inputs: Inputs) -> Figure:
    """How far out from the wall it stands, below zero where it is behind it."""
    out = inputs.sure(found, "from_wall", at)
    return number(0, label="Face of the wall") - out if found.behind else out


def _stack(outline: Outline, inputs: Inputs) -> Outfall:
    stack = outline.plan.survey.stack
    where = inputs.sure(stack, "from_left", "survey.stack"), _from_wall(stack, "survey.stack", inputs)
    along, out = outline.standing.stands(*where, stack.wall)
    return Outfall(
        "",
        "survey.stack",
        along.named("Stack from left wall"),
        out.named("Stack from its wall"),
        inputs.number(stack, "branch_invert", "survey.stack"),
        STACK_SIZE,
    )


def _same(one: str, other: str) -> bool:
    return one.casefold() == other.casefold()
