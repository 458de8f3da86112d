"""The chosen room at once, while something in it is moved: worked out and judged, without materials or prices."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import NotHeldError
from tundish.catalogue.own import with_own
from tundish.desktop.workspace import Workspace
from tundish.documents.plan_drawing import CLEAR, TURNING
from tundish.documents.shortfalls import BETWEEN, FALLS, SIDE
from tundish.estimate import Estimate
from tundish.figure import Figure
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out_all
from tundish.rules.book import RULES
from tundish.rules.rule import Finding
from tundish.takeoff.run import run_room

DRAWN: Final = frozenset({SIDE, BETWEEN, CLEAR, TURNING, *FALLS})
"""The rules whose findings are seen on the wall and in the plan, or pull what is moved."""


@dataclass(frozen=True, slots=True)
class Sight:
    """One room of a job at each of its pre-walls, and what was found about it."""

    plan: RoomPlan
    rooms: tuple[Room, ...]
    findings: tuple[Finding, ...]


def at_once(plan: RoomPlan, book: Book, path: str) -> Sight:
    """The room worked out here and now: a few milliseconds."""
    rules = tuple(each for each in RULES if each.key in DRAWN)
    rooms = work_out_all(plan, book, path)
    return Sight(plan, rooms, tuple(finding for room in rooms for finding in run_room(room, book, rules).findings))


def sight_of(workspace: Workspace, kept: Sight | None = None) -> Sight | None:
    """The chosen room as it is now: out of the estimate, or `kept`, where that is of it, else worked out at once.

    None without rooms, and for one that cannot be worked out: the estimate's problems say why.
    """
    job, path = workspace.shown, workspace.room_path
    if workspace.room_place >= len(job.rooms):
        return None
    plan = job.rooms[workspace.room_place]
    known = of_estimate(workspace.estimate, path) if workspace.estimate else None
    found = next((each for each in (known, kept) if each is not None and each.plan is plan), None)
    try:
        return found or _still_open(at_once(plan, with_own(workspace.book, job.own_items), path), known)
    except NotHeldError:
        return None


def _still_open(sight: Sight, known: Sight | None) -> Sight:
    """What is seen before every alternative of the open choices is worked out: what they left to be confirmed is so still."""
    if not sight.plan.undecided:
        return sight
    before = {room.place: room for room in known.rooms} if known else {}
    return replace(sight, rooms=tuple(_as_open(room, before.get(room.place)) for room in sight.rooms))


def _as_open(room: Room, before: Room | None) -> Room:
    then = {each.key: each.figures for each in before.placed} if before else {}
    placed = tuple(
        replace(each, figures={name: _unsure(figure, then.get(each.key, {}).get(name)) for name, figure in each.figures.items()})
        for each in room.placed
    )
    figures = {name: _unsure(figure, before.figures.get(name) if before else None) for name, figure in room.figures.items()}
    own: dict[str, Any] = {name: _unsure(getattr(room, name), getattr(before, name, None)) for name in _OWN}
    return replace(room, placed=placed, figures=figures, **own)


def _unsure(figure: Figure, before: Figure | None) -> Figure:
    return replace(figure, tbc=True) if before is None or before.tbc else figure


_OWN: Final = ("finished_floor", "depth", "thickness", "top", "top_of_steel")


def looked_at(workspace: Workspace, sight: Sight | None) -> Room | None:
    """The pre-wall of a sight that is looked at: the first where there is no such one."""
    if sight is None:
        return None
    return sight.rooms[workspace.wall_place] if workspace.wall_place < len(sight.rooms) else sight.rooms[0]


def of_estimate(estimate: Estimate, path: str) -> Sight | None:
    """The same room out of the estimate; None where it has none."""
    rooms = tuple(room for room in estimate.rooms if room.path == path)
    return Sight(rooms[0].plan, rooms, estimate.findings) if rooms else None
