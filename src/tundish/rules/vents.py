"""Branches and wastes that are vented by a valve of their own: how long they may then be, and the way out that gives them one."""

from __future__ import annotations

from tundish.catalogue.book import Book
from tundish.figure import Figure, largest
from tundish.layout.design import BY_VALVE
from tundish.layout.room import Placed
from tundish.rules.rule import WayOut, judge


def vented(most: Figure, book: Book) -> Figure:
    """How long a branch or waste may be with a vent: never shorter than without one."""
    return largest(most, book.figure("discharge.vented_most"), label="Longest with a vent")


def vented_by(one: Placed, has: Figure, book: Book) -> tuple[WayOut, ...]:
    """The way out of giving it a valve, where it is then short enough and has none."""
    if one.choice.vented == BY_VALVE or judge(has, None, book.figure("discharge.vented_most")) != "passes":
        return ()
    words = f"Vent {one.name} with an air admittance valve: above its overflow, bought, and reached through a hatch."
    return (WayOut(words, f"{one.path}.vented", BY_VALVE),)
