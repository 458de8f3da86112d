"""The chosen room at once, while something in it is moved: worked out and judged, without materials or prices."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.own import with_own
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out_all
from tundish.rules.book import RULES
from tundish.rules.rule import Finding
from tundish.takeoff.run import run_room

DRAWN: Final = frozenset({"drainage", "frames", "space"})
"""The families of rules whose findings can be seen on the wall and in the plan."""


@dataclass(frozen=True, slots=True)
class Sight:
    """One room of a job at each of its pre-walls, and what was found about it."""

    plan: RoomPlan
    rooms: tuple[Room, ...]
    findings: tuple[Finding, ...]


def at_once(plan: RoomPlan, book: Book, path: str) -> Sight:
    """The room worked out here and now: a few milliseconds."""
    rules = tuple(each for each in RULES if each.family in DRAWN and each.reads == "room")
    rooms = work_out_all(plan, book, path)
    return Sight(plan, rooms, tuple(finding for room in rooms for finding in run_room(room, book, rules).findings))


def sight_of(workspace: Workspace, kept: Sight | None = None) -> Sight | None:
    """The chosen room as it is now: out of the estimate, or `kept`, where that is of it, else worked out at once; None without rooms."""
    job, path = workspace.shown, workspace.room_path
    if workspace.room_place >= len(job.rooms):
        return None
    plan = job.rooms[workspace.room_place]
    known = of_estimate(workspace.estimate, path) if workspace.estimate else None
    found = next((each for each in (known, kept) if each is not None and each.plan is plan), None)
    return found or at_once(plan, with_own(workspace.book, job.own_items), path)


def looked_at(workspace: Workspace, sight: Sight | None) -> Room | None:
    """The pre-wall of a sight that is looked at: the first where there is no such one."""
    if sight is None:
        return None
    return sight.rooms[workspace.wall_place] if workspace.wall_place < len(sight.rooms) else sight.rooms[0]


def of_estimate(estimate: Estimate, path: str) -> Sight | None:
    """The same room out of the estimate; None where it has none."""
    rooms = tuple(room for room in estimate.rooms if room.path == path)
    return Sight(rooms[0].plan, rooms, estimate.findings) if rooms else None
