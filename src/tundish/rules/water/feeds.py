"""Feeds of hot and cold: from where they come in to each draw-off."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, Literal

from tundish.catalogue.book import Book
from tundish.layout.room import PipeRun, Room
from tundish.rules.amounts import each, in_all
from tundish.rules.pipes import couplings, fed_before, out_of_wall, pieces, served, shut_in_front, supply_size
from tundish.rules.rule import Cut, Need, rule

_KINDS: Final[tuple[Literal["hot", "cold"], ...]] = ("hot", "cold")


@rule(
    "water/feeds",
    figures=("water.run_height", "water.runs_apart", "water.under_floor", "water.piece_least"),
    source="common practice; a valve at each float-operated cistern: Water Fittings Regulations 1999, schedule 2, from memory",
)
def feeds(room: Room, book: Book) -> Iterator[Need]:
    """Every draw-off has its own feed with a servicing valve.

    Two elbows each: up the wall, and out of it; one more for every corner, where it comes out in front of another pipe to go up, where
    it first goes up to run higher than usual, and where it is led under the floor.
    A run longer than a bar is coupled from even pieces. All but one branch off in a tee; the first is coupled to the pipe that is there,
    with a reducer where that is larger. At a further pre-wall all branch off. The last piece comes out of the wall to the frame. A basin's
    or bidet's valves stand in the void, or in front of the wall between wall plate elbow and connector, as chosen.
    """
    for kind in _KINDS:
        runs = room.pipes_of(kind)
        for run in runs:
            name = served(room, run).name
            why = f"{kind} to {name}"
            cuts = (*pieces(run), *_out(room, run))
            if cuts:
                amount = in_all([one.length for one in cuts], "pieces", f"{kind.capitalize()} to {name}")
                yield Need(amount, "first fix", why, role=f"copper {run.size}", cuts=cuts)
            yield Need(each(len(run.bends), f"Elbows, {why}"), "first fix", why, role=f"elbow {run.size}")
            yield from couplings(run, why, "coupling")
            if shut_in_front(served(room, run)):
                yield Need(each(1, f"Valve, {why}"), "second fix", why, role="service valve half")
            else:
                yield Need(each(1, f"Valve, {why}"), "first fix", why, role=f"servicing valve {run.size}")
        if runs:
            yield from _as_it_comes_in(room, kind, runs)


def _as_it_comes_in(room: Room, kind: Literal["hot", "cold"], runs: tuple[PipeRun, ...]) -> Iterator[Need]:
    """What joins the first feed to the pipe that is there, and a tee for every other one."""
    tees = len(runs) - 1
    if fed_before(room, kind):
        tees += 1
    else:
        why, there = f"{kind} as it comes in", supply_size(room, kind)
        yield Need(each(1, why.capitalize()), "first fix", why, role=f"coupling {there}")
        if there != runs[0].size:
            yield Need(each(1, why.capitalize()), "first fix", why, role=f"reducer {there}-{runs[0].size}")
    if tees:
        why = f"{kind} feeds but the first"
        yield Need(each(tees, why.capitalize()), "first fix", why, role=f"tee {runs[0].size}")


def _out(room: Room, run: PipeRun) -> tuple[Cut, ...]:
    """The piece out of the wall to the frame, marked after the other pieces of its run."""
    leg = out_of_wall(room, run)
    mark = f"{run.mark}{chr(ord('a') + len(run.lengths))}" if run.lengths else run.mark
    return (Cut(mark, leg, run.what, "out of the wall"),) if leg is not None else ()
