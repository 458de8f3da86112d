"""What has to dry before the work goes on: for how long, after which work and before which, and who says so."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, largest
from tundish.layout.room import Room
from tundish.takeoff.line import Line

DRIES: Final = "dries"
"""The size of an item that says in how many hours it dries, by its maker's sheet."""
LEVELLING: Final = "levelling"
"""A layer of the floor that says so is levelled, whoever lays it."""
FLOOR_TILES: Final = "tiling/floor-tiles"
"""The rule that asks for tiles on the floor: they cannot be laid before it is dry."""


@dataclass(frozen=True, slots=True)
class Wait:
    """After the last of one piece of work, so many hours must pass before the first of another."""

    what: str
    hours: Figure
    after: str
    before: tuple[str, ...]


def waits(lines: Sequence[Line], rooms: Iterable[Room], book: Book) -> tuple[Wait, ...]:
    """The waits of a job, by what is on its list and in its floors. Tiles wait for adhesive or grout, whichever takes longer."""
    return tuple(_waits(lines, rooms, book))


def _waits(lines: Sequence[Line], rooms: Iterable[Room], book: Book) -> Iterator[Wait]:
    tanking = _longest(lines, ("tanking",), book)
    if tanking is not None:
        yield Wait("Tanking dries", tanking, "boarding", ("tiling", "second fix"))
    tiles = _longest(lines, ("adhesive", "grout"), book)
    if tiles is not None:
        yield Wait("Adhesive and grout cure", tiles, "tiling", ("second fix",))
    layers = (layer.what.lower() for room in rooms for layer in room.plan.survey.floor.build_up)
    if any(LEVELLING in words for words in layers):
        covers = any(need.rule == FLOOR_TILES for line in lines for need in line.needs)
        yield Wait("Levelling dries", book.figure("drying.levelling"), "frames", ("tiling",) if covers else ("second fix",))


def _longest(lines: Sequence[Line], kinds: tuple[str, ...], book: Book) -> Figure | None:
    """The longest that anything of these kinds on the list takes; None where there is nothing of them."""
    items = {line.item.code: line.item for line in lines if line.item.kind in kinds}
    found = [item.size(DRIES) if item.has(DRIES) else book.figure(f"drying.{item.kind}") for item in items.values()]
    return largest(*found, label="Dries") if len(found) > 1 else found[0] if found else None
