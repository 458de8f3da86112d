"""Whether the stack carries all that discharges into it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from tundish.catalogue.book import Book
from tundish.layout.design import BY_H
from tundish.layout.room import Room
from tundish.measure import show_number
from tundish.rules.drained_by import FLOWS, Flow, differing, drains, flow_in, flows, others_in, with_bosses
from tundish.rules.rule import Finding, State, WayOut, rule

_SOURCE: Final = "EN 12056-2:2000, 6.3 and tables 2, 3 and 11; Approved Document H, table 3, from memory"


@rule("drainage/stack-flow", figures=FLOWS, source=_SOURCE, whole=True)
def stack_flow(room: Room, book: Book) -> Iterator[Finding]:
    """The stack carries what all appliances on it discharge at once, by the rule set that was chosen.

    K × √ΣDU of the room's own appliances and of what else was surveyed to drain into it, and never less than the largest of them;
    against what a stack of 100 carries. By EN 12056-2 that is less with square entries than with swept ones: where square ones would not
    do, the branches on the list are swept. What the other rule sets make of it is said where their answer differs.
    """
    if not drains(room.plan):
        return
    besides = others_in(room.plan, room.path)
    chosen, *rest = flows(room.plan, besides, book)
    has, most = flow_in(room.plan, besides, book)
    differ = [each for each in rest if each.passes != chosen.passes]
    words = (
        _wrong(chosen),
        _SWEPT if chosen.swept else "",
        differing((each.by, _words(each)) for each in differ),
        f"Reckoned by {chosen.by}.",
    )
    ways = () if chosen.passes else (*_without_bosses(room, chosen, book), *_by_another(room, differ))
    message = " ".join(each for each in words if each)
    state: State = "passes" if chosen.passes else "fails"
    yield Finding("Flow in the stack", "Falls", state, has, "Regulation", most.note, None, most, message, "", ways)


def _by_another(room: Room, differ: Iterable[Flow]) -> Iterator[WayOut]:
    for each in differ:
        words = f"Reckon by {each.by}: falls and lengths are then held against it too. Building control says which."
        yield WayOut(words, f"{room.path}.design.piping.drains_by", each.by)


def _without_bosses(room: Room, chosen: Flow, book: Book) -> Iterator[WayOut]:
    """A swept branch in place of the only one with bosses, where the stack carries the flow so."""
    with_them = with_bosses(room.plan)
    over_square = chosen.by != BY_H and chosen.flow > chosen.most and not chosen.not_permitted
    if over_square and len(with_them) == 1 and chosen.flow <= book.figure("discharge.stack_swept").value:
        (place,) = with_them
        words = f"Let {room.plan.design.appliances[place].name} in swept and without bosses: wastes that went into them want straps."
        yield WayOut(words, f"{room.path}.design.appliances.{place}.branch", "plain")


def _wrong(chosen: Flow) -> str:
    barred = f"{', '.join(chosen.not_permitted)}: not permitted by {chosen.by}, table 2." if chosen.not_permitted else ""
    over = "A larger stack, or one of its own for part of it: ask who designs the drainage." if chosen.flow > chosen.most else ""
    return " ".join(each for each in (barred, over) if each)


_SWEPT: Final = "With swept entries, as the branches on the list are: what else comes into the stack has to be swept too."


def _words(of: Flow) -> str:
    flow = f"{show_number(of.flow, 2)} of {show_number(of.most, 1)} l/s"
    return f"{flow}, but {', '.join(of.not_permitted)}, which it does not permit" if of.not_permitted else flow
