"""Pipes that go through a wall or the floor: which, through what, and what a sleeve round each is, with the sealant at both its ends."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.field import get, must_read, read
from tundish.figure import Figure, Known, number
from tundish.layout.design import UNDER_FLOOR
from tundish.layout.room import PipeRun, Room
from tundish.layout.walls import found_wall
from tundish.rules.pipes import outfall, served
from tundish.rules.rule import Cut, Finding, Need, judge
from tundish.survey.floor import SOLID
from tundish.survey.wall import SOLID_WALLS

FIGURES: Final = ("drainage.sleeve_seal", "drainage.sleeve_clear")
"""What these work with."""
FLOORS: Final = ("drainage.floor_boards", "drainage.floor_solid")
"""How thick a floor is taken to be that was not measured."""


@dataclass(frozen=True, slots=True)
class Through:
    """A pipe through the wall or the floor: what it is called, its mark and size, the role of its pipe, and what it goes through.

    `of`: "wall" or "floor"; how `thick` that is, whether `solid`, and whether a `party` wall.
    """

    name: str
    mark: str
    size: int
    pipe: str
    of: str
    thick: Figure
    solid: bool
    party: bool = False


def drains_through(room: Room) -> Iterator[Through]:
    """Every branch and waste that goes to a stack or an entry behind a wall."""
    for count, run in enumerate(room.pipes_of("soil", "waste"), 1):
        found = get(room.plan, outfall(room, run).at)
        if found.behind:
            yield _through(room, run.what, f"{room.mark}L{count}", (run, f"{run.kind} pipe"), found.wall)


def drains_down(room: Room, book: Book) -> Iterator[Through]:
    """Every branch and waste that goes to an entry under the floor."""
    for count, run in enumerate(room.pipes_of("soil", "waste"), 1):
        into = outfall(room, run)
        if into.under:
            path = f"{into.at}.floor_thick"
            thick = read(get(room.plan, into.at), "floor_thick", f"{room.path}.{into.at}")
            yield _down(room, run, (f"{room.mark}LF{count}", f"{run.kind} pipe"), thick or _usual(room, path, book))


def supplies_through(room: Room) -> Iterator[Through]:
    """Hot and cold where they come through the wall, the first run of each."""
    water = room.plan.survey.water
    for kind in ("hot", "cold") if water.behind else ():
        runs = room.pipes_of(kind)
        if runs:
            yield _through(room, f"{kind} as it comes in", f"{room.mark}L{kind[0].upper()}", (runs[0], "copper"), water.wall)


def supplies_up(room: Room, book: Book) -> Iterator[Through]:
    """Every supply that is led under the floor, where it comes up behind its appliance."""
    for run in room.pipes_of("hot", "cold"):
        if served(room, run).choice.feeds == UNDER_FLOOR:
            yield _down(room, run, (f"{run.mark}L", "copper"), _usual(room, "", book))


def sleeved(through: Through, book: Book) -> Iterator[Need | Finding]:
    """A sleeve as long as the wall is thick, sealant round the pipe at both ends, and whether there is room for it."""
    role, why = f"wall sleeve {through.size}", f"{through.name}, through the {through.of}"
    yield Need(through.thick.named(f"Sleeve, {through.name}"), "first fix", why, role=role,
               cuts=(Cut(through.mark, through.thick, f"{through.of} sleeve", f"through the {through.of}"),))  # fmt: skip
    pipe, sleeve = book.role(f"{through.pipe} {through.size}"), book.role(role)
    across, bore = pipe.size("diameter"), sleeve.size("bore")
    ring = ((bore * bore - across * across) * number(round(math.pi / 4, 6), "", "π ÷ 4")).named("Gap round the pipe")
    deep = book.figure("drainage.sleeve_seal") * number(2, "", "ends")
    yield Need(
        (ring * deep * number(0.001, "ml/mm³", "ml in a mm³")).named(f"Sealant, {through.name}"), "first fix", why, role="sleeve sealant"
    )
    least = book.figure("drainage.sleeve_clear")
    has = ((bore - across) * number(0.5, "", "each side")).named("Room round the pipe")
    state = judge(has, least, None)
    message = "" if state == "passes" else f"{sleeve.name} is too tight for {pipe.name}: take the next size, so that sealant goes in."
    yield Finding("Room in the sleeve", "Noise", state, has, "Own rule", least.note, least, None, message, through.name)


def drilled(found: tuple[Through, ...]) -> bool:
    """Whether any of them is to be cored."""
    return any(each.solid for each in found)


def _through(room: Room, name: str, mark: str, pipe: tuple[PipeRun, str], letter: str) -> Through:
    place = next((count for count, side in enumerate(room.sides) if side.letter == letter), 0)
    wall, at = found_wall(room.plan.survey, place)
    thick = must_read(wall, "thickness", f"{room.path}.{at}")
    return Through(name, mark, pipe[0].size, pipe[1], "wall", thick, wall.construction in SOLID_WALLS, wall.party)


def _down(room: Room, run: PipeRun, called: tuple[str, str], thick: Figure) -> Through:
    """A pipe through the floor, by its mark and the role of its pipe."""
    return Through(run.what, called[0], run.size, called[1], "floor", thick.named("Floor"), room.plan.survey.floor.kind in SOLID)


def _usual(room: Room, path: str, book: Book) -> Figure:
    """How thick a floor is that was not measured: as is usual, to be confirmed where it can be put in."""
    usual = book.figure("drainage.floor_solid" if room.plan.survey.floor.kind in SOLID else "drainage.floor_boards")
    return replace(usual, known=Known.ASSUMED, tbc=True, path=f"{room.path}.{path}") if path else replace(usual, known=Known.ASSUMED)
