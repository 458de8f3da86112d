"""The chosen room at once, while something in it is moved: worked out and judged, without materials or prices."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import Book
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


def of_estimate(estimate: Estimate, path: str) -> Sight | None:
    """The same room out of the estimate; None where it has none."""
    rooms = tuple(room for room in estimate.rooms if room.path == path)
    return Sight(rooms[0].plan, rooms, estimate.findings) if rooms else None
