"""A piece while it is held: where it would come to rest, what pulled it there, and what the move is called."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tundish import measure
from tundish.catalogue.book import Book
from tundish.desktop import moves
from tundish.desktop.moves import Thing
from tundish.desktop.snapping import PULL_PX, Pull, pulls_along, pulls_up, snapped
from tundish.estimate import Job
from tundish.field import put
from tundish.layout.room import Room
from tundish.rules.rule import Finding


@dataclass(frozen=True, slots=True)
class Rest:
    """Where a held piece would be put down: the job then, the input it changes, what the step is called, and words for the pointer."""

    job: Job
    path: str
    step: str
    note: str


@dataclass(frozen=True, slots=True)
class Pointer:
    """How it is dragged: the way its handle can go ("" for either), pixels a mm, the grid, and whether nothing is to pull."""

    axis: str
    scale: float
    grid: float
    free: bool = False


@dataclass(frozen=True, slots=True)
class Holding:
    """One movement, from where the piece was when it was taken hold of."""

    job: Job
    room: Room
    thing: Thing
    findings: tuple[Finding, ...]
    book: Book

    def dragged(self, right: float, up: float, by: Pointer) -> Rest:
        """Dragged so far, mm, one way only: its handle's, or the further one."""
        along = by.axis == "along" or (not by.axis and abs(right) >= abs(up))
        size = self.thing.along if along else self.thing.up
        wanted = moves.held(self.job, size) + (right if along else up)
        if by.free:
            return self._rest(Pull(float(round(wanted)), ""), along=along)
        pulls = pulls_along(self.room, self.thing, self.book) if along else pulls_up(self.room, self.thing, self.findings)
        return self._rest(snapped(wanted, pulls, by.grid, PULL_PX / by.scale), along=along)

    def stepped(self, right: float, up: float) -> Rest:
        """Moved by keys so far in all, mm; nothing pulls. The way it went further is the one that counts for the name."""
        rest = self._rest(Pull(moves.held(self.job, self.thing.along) + right, ""), along=True)
        if not up:
            return rest
        if not right:
            return self._rest(Pull(moves.held(self.job, self.thing.up) + up, ""), along=False)
        size = self.thing.up
        both = put(rest.job, size.path, moves.moved(rest.job, size.path, moves.held(self.job, size) + up))
        raised = moves.step_words(self.thing, up, along=False)
        return Rest(both, self.thing.path, f"{rest.step}, {raised}", f"{rest.note}, {raised}")

    def _rest(self, pull: Pull, *, along: bool) -> Rest:
        size = self.thing.along if along else self.thing.up
        entry = moves.moved(self.job, size.path, pull.value)
        step = moves.step_words(self.thing, entry.value - moves.held(self.job, size), along=along)
        shown = measure.show_length(entry.value)
        note = f"{shown}, {pull.name}" if pull.name and entry.value == pull.value else shown
        return Rest(put(self.job, size.path, entry), size.path, step, note)


def along_wall(room: Room, right: float, up: float) -> float:
    """How far along a room's wall a way across the whole plan goes, mm."""
    turn = math.radians(room.line.heading)
    return right * math.cos(turn) - up * math.sin(turn)
