"""Whether a WC branch falls enough, and not too much, from the pan to its entry in the stack."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from tundish.catalogue.book import Book
from tundish.figure import Figure, converted, without
from tundish.layout.design import BY_H
from tundish.layout.room import PipeRun, Placed, Room
from tundish.measure import show_length, show_number
from tundish.rules.drained_by import BRANCHES, SYSTEMS, branch_falls, differing, others
from tundish.rules.pipes import elsewhere, outfall, served
from tundish.rules.rule import Finding, WayOut, judge, rule

_TITLE, _SOURCE = "Fall of WC branch", "Approved Document H, table 2"


@rule("drainage/branch-fall", figures=BRANCHES, source=f"{_SOURCE}; EN 12056-2, table 5, as a pipe catalogue has it, and from memory")
def branch_fall(room: Room, book: Book) -> Iterator[Finding]:
    """A WC branch falls enough to carry, and not so much that water leaves the rest behind, by the rule set that was chosen.

    The drop there is, from the invert at the pan to the invert at the stack, against the fall by the metre times the run.
    """
    for run in room.pipes_of("soil"):
        one, metres = served(room, run), converted(run.run, "m", "Run of branch")
        rate = branch_falls(room.plan.design.piping.drains_by, book)
        least, most = (rate[0] * metres).named("Least drop"), (rate[1] * metres).named("Greatest drop")
        if run.rise is None:
            message = f"needs the invert of {run.to}" if run.to else "needs branch invert"
            yield Finding(_TITLE, "Falls", "cannot tell", None, "Regulation", _source(room, rate), least, most, message, one.name)
            continue
        yield _with_others(room, run, _judged(room, run, run.rise, (least, most), rate), book)


def _judged(room: Room, run: PipeRun, has: Figure, limits: tuple[Figure, Figure], rates: tuple[Figure, Figure]) -> Finding:
    one, (least, most) = served(room, run), limits
    state = judge(has, least, most)
    steep = has.value > (least.value + most.value) / 2 and state != "passes"
    off = _off(most.value - has.value if steep else least.value - has.value, steep=steep)
    top, entry = _above_floor(room, one).value + off, _entry(room, run) - off
    bounds = ("Highest", "lowest") if steep else ("Lowest", "highest")
    sure = _sure_top(room, one, most.low - has.high if steep else least.high - has.low, steep=steep)
    always = f" ({show_length(sure)} whatever is decided)" if sure != top else ""
    message = f"{bounds[0]} top of pan {show_length(top)}{always}, {bounds[1]} entry {show_length(entry)}."
    ways: tuple[WayOut, ...] = ()
    if state != "passes":
        does = f"{'Lower' if steep else 'Raise'} the pan by {show_length(abs(off))}"
        message = f"{does} or {'raise' if steep else 'lower'} the entry. {message}"
        if has.value < 0:
            message = f"The entry lies {show_length(-has.value)} mm above the outlet: water does not run up. {message}"
        words = f"{does}, to {show_length(top)}: studs, outlet and every hole in the tile move with it."
        ways = (WayOut(words, f"{one.path}.top", top), *elsewhere(room, run, lambda _: rates))
    return Finding(_TITLE, "Falls", state, has, "Regulation", _source(room, rates), least, most, message, one.name, ways)


def _source(room: Room, rates: tuple[Figure, Figure]) -> str:
    """Where the limits are from: of EN 12056-2 the least alone differs, and of its system III neither does."""
    by_h = SYSTEMS[room.plan.design.piping.drains_by] == SYSTEMS[BY_H]
    return _SOURCE if by_h else f"at least: {rates[0].note}; at most: {_SOURCE}"


def _off(short: float, *, steep: bool) -> int:
    """By how many whole millimetres the pan has to go up, or down where that is less than nought, to come inside a limit."""
    return math.floor(short + _GRACE) if steep else math.ceil(short - _GRACE)


def _sure_top(room: Room, one: Placed, short: float, *, steep: bool) -> float:
    """The last top of the pan that works whatever else turns out; `short`: by how much it is short at the worst."""
    above = _above_floor(room, one)
    return (above.high if steep else above.low) + _off(short, steep=steep)


def _with_others(room: Room, run: PipeRun, found: Finding, book: Book) -> Finding:
    """The same, naming the rule set, and what others make of it where they differ."""
    told = []
    for by in others(room.plan):
        least, most = branch_falls(by, book)
        if run.fall is not None and judge(run.fall, least, most) != found.state:
            told.append((by, f"{show_number(least.value, None)} to {show_number(most.value, None)} mm a metre"))
    words = (found.message, differing(told), f"Reckoned by {room.plan.design.piping.drains_by}.")
    return replace(found, message=" ".join(each for each in words if each))


def _entry(room: Room, run: PipeRun) -> float:
    """The invert that it enters at."""
    enters = outfall(room, run).invert
    return enters.value if enters is not None else 0.0


def _above_floor(room: Room, one: Placed) -> Figure:
    """The top of the pan above the finished floor, as it is typed."""
    return without(one.figures["top"], room.finished_floor)


_GRACE = 1e-6
