"""Hot and cold: each draw-off has a run of its own, along the wall near the floor and then up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, Literal

from tundish.catalogue.book import Book
from tundish.figure import Figure, number
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.inputs import Inputs
from tundish.layout.outline import Outline
from tundish.layout.pipes import along
from tundish.layout.room import PipeRun, Placed

SIZE: Final = 15
SHORTEST: Final = 50.0
"""A shorter piece is no piece: the fittings meet."""


@dataclass(frozen=True, slots=True)
class Rises:
    """Where hot and cold come into the void, from the left wall."""

    hot: Figure
    cold: Figure


def rises_of(outline: Outline, inputs: Inputs) -> Rises:
    """The rises as surveyed."""
    water = outline.plan.survey.water
    hot, cold = inputs.sure(water, "hot_from_left", "survey.water"), inputs.sure(water, "cold_from_left", "survey.water")
    return Rises(outline.standing.seen(hot, water.wall), outline.standing.seen(cold, water.wall))


def feeds(placed: Sequence[Placed], rises: Rises, book: Book) -> tuple[PipeRun, ...]:
    """Every run of hot from the left, H1, H2…, then every run of cold, C1, C2… likewise."""
    level = book.figure("water.run_height")
    hot = (_feed(each, "hot", rises.hot, level, f"H{count}") for count, each in enumerate(_drawing(placed, "hot"), 1))
    cold = (_feed(each, "cold", rises.cold, level, f"C{count}") for count, each in enumerate(_drawing(placed, "cold"), 1))
    return (*hot, *cold)


def _drawing(placed: Sequence[Placed], kind: str) -> Iterator[Placed]:
    return (each for each in placed if kind in KINDS[each.kind].ends)


def _feed(placed: Placed, kind: Literal["hot", "cold"], rise: Figure, level: Figure, mark: str) -> PipeRun:
    at = placed.figures.get(f"{kind}_from_left", placed.centre)
    height = placed.figures["supply"]
    run = along(at, rise, f"{kind.capitalize()} along the wall, {placed.name}", number(0, label="None"))
    up = (height - level).named(f"{kind.capitalize()} upwards, {placed.name}")
    return PipeRun(
        key=f"{placed.key}.{kind}",
        mark=mark,
        what=f"{kind.capitalize()}, {placed.name}",
        kind=kind,
        serves=placed.key,
        size=SIZE,
        run=run,
        rise=up,
        fall=None,
        lengths=tuple(each for each in (run, up) if each.value >= SHORTEST),
        points=((rise.value, 0.0), (rise.value, level.value), (at.value, level.value), (at.value, height.value)),
    )
