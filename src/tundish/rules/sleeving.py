"""Pipes that go through a wall: which, through which wall, and what a sleeve round each is, with the sealant at both its ends."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import Book
from tundish.field import get, must_read
from tundish.figure import Figure, number
from tundish.layout.room import PipeRun, Room
from tundish.layout.walls import found_wall
from tundish.rules.pipes import outfall
from tundish.rules.rule import Cut, Finding, Need, judge
from tundish.survey.wall import SOLID_WALLS, Wall

FIGURES: Final = ("drainage.sleeve_seal", "drainage.sleeve_clear")
"""What these work with."""


@dataclass(frozen=True, slots=True)
class Through:
    """A pipe through a wall: what it is called, its mark and size, the role of its pipe, the wall and how thick that is."""

    name: str
    mark: str
    size: int
    pipe: str
    wall: Wall
    thick: Figure


def drains_through(room: Room) -> Iterator[Through]:
    """Every branch and waste that goes to a stack or an entry behind a wall."""
    for count, run in enumerate(room.pipes_of("soil", "waste"), 1):
        found = get(room.plan, outfall(room, run).at)
        if found.behind:
            yield _through(room, run.what, f"{room.mark}L{count}", (run, "soil pipe" if run.kind == "soil" else "waste pipe"), found.wall)


def supplies_through(room: Room) -> Iterator[Through]:
    """Hot and cold where they come through the wall, the first run of each."""
    water = room.plan.survey.water
    for kind in ("hot", "cold") if water.behind else ():
        runs = room.pipes_of(kind)
        if runs:
            yield _through(room, f"{kind} as it comes in", f"{room.mark}L{kind[0].upper()}", (runs[0], "copper"), water.wall)


def sleeved(through: Through, book: Book) -> Iterator[Need | Finding]:
    """A sleeve as long as the wall is thick, sealant round the pipe at both ends, and whether there is room for it."""
    role, why = f"wall sleeve {through.size}", f"{through.name}, through the wall"
    yield Need(through.thick.named(f"Sleeve, {through.name}"), "first fix", why, role=role,
               cuts=(Cut(through.mark, through.thick, "wall sleeve", "through the wall"),))  # fmt: skip
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
    return any(each.wall.construction in SOLID_WALLS for each in found)


def _through(room: Room, name: str, mark: str, pipe: tuple[PipeRun, str], letter: str) -> Through:
    place = next((count for count, side in enumerate(room.sides) if side.letter == letter), 0)
    wall, at = found_wall(room.plan.survey, place)
    return Through(name, mark, pipe[0].size, pipe[1], wall, must_read(wall, "thickness", f"{room.path}.{at}"))
