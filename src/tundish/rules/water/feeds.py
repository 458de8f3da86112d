"""Feeds of hot and cold: from where they come in to each draw-off."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each, in_all
from tundish.rules.pipes import couplings, pieces, served
from tundish.rules.rule import Need, rule


@rule(
    "water/feeds",
    figures=("water.run_height", "water.piece_least"),
    source="common practice; a valve at each float-operated cistern: Water Fittings Regulations 1999, schedule 2, from memory",
)
def feeds(room: Room, book: Book) -> Iterator[Need]:
    """Every draw-off has its own feed with a servicing valve.

    Two elbows each: up the wall, and out of it; one more for every corner, and where it comes out in front of another pipe to go up.
    A run longer than a bar is coupled from even pieces. All but one branch off in a tee; the first is coupled to the pipe that is there.
    """
    for kind in ("hot", "cold"):
        runs = room.pipes_of(kind)
        for run in runs:
            name = served(room, run).name
            why = f"{kind} to {name}"
            cuts = pieces(run)
            if cuts:
                amount = in_all([one.length for one in cuts], "pieces", f"{kind.capitalize()} to {name}")
                yield Need(amount, "first fix", why, role=f"copper {run.size}", cuts=cuts)
            yield Need(each(len(run.bends), f"Elbows, {why}"), "first fix", why, role=f"elbow {run.size}")
            yield from couplings(run, why, "coupling")
            yield Need(each(1, f"Valve, {why}"), "first fix", why, role=f"servicing valve {run.size}")
        if runs:
            why = f"{kind} as it comes in"
            yield Need(each(1, why.capitalize()), "first fix", why, role=f"coupling {runs[0].size}")
        if len(runs) > 1:
            why = f"{kind} feeds but the first"
            yield Need(each(len(runs) - 1, why.capitalize()), "first fix", why, role=f"tee {runs[0].size}")
