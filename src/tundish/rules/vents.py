"""Branches and wastes that are vented by a valve of their own: of what that is made, how long they may be, the way out that gives one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from tundish.catalogue.book import Book
from tundish.figure import Figure, largest
from tundish.layout.design import BY_VALVE
from tundish.layout.room import Placed
from tundish.rules.rule import WayOut, judge


@dataclass(frozen=True, slots=True)
class Vent:
    """The roles of what a vent is made of: the valve, what it stands on in the branch, the pipe up to it, what reduces to that."""

    valve: str
    tee: str
    pipe: str
    reducer: str = ""


VENTS: Final[Mapping[int, Vent]] = {
    110: Vent("air valve 110", "soil branch 110", "soil pipe 110"),
    50: Vent("air valve 40", "waste tee 50", "waste pipe 40", "waste reducer 50-40"),
    40: Vent("air valve 40", "waste tee 40", "waste pipe 40"),
    32: Vent("air valve 40", "waste tee 32", "waste pipe 32", "waste reducer 40-32"),
}
"""By the size of the branch or waste."""


def vented(most: Figure, book: Book) -> Figure:
    """How long a branch or waste may be with a vent: never shorter than without one."""
    return largest(most, book.figure("discharge.vented_most"), label="Longest with a vent")


def vented_by(one: Placed, has: Figure, book: Book) -> tuple[WayOut, ...]:
    """The way out of giving it a valve, where it is then short enough and has none."""
    if one.choice.vented == BY_VALVE or judge(has, None, book.figure("discharge.vented_most")) != "passes":
        return ()
    words = f"Vent {one.name} with an air admittance valve: above its overflow, bought, and reached through a hatch."
    return (WayOut(words, f"{one.path}.vented", BY_VALVE),)
