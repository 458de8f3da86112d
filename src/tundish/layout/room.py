"""A room worked out: where every piece stands, how high, how long, and each of those as a figure that remembers.

x along wall A from its left end, y out from the face of wall A, z up from the bare floor; millimetres.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from tundish.catalogue.item import Item
from tundish.field import Problem
from tundish.figure import Figure
from tundish.layout.design import Appliance, RoomPlan


@dataclass(frozen=True, slots=True)
class Member:
    """One piece of steel or timber. `x`, `z` is its lower left corner in elevation; `along` says how it lies."""

    mark: str
    what: str
    role: str
    length: Figure
    along: Literal["x", "y", "z"]
    x: float
    y: float
    z: float
    section: tuple[float, float]
    """Its size across: (in the elevation's plane, in depth), mm."""
    where: str = ""


@dataclass(frozen=True, slots=True)
class Placed:
    """An appliance on its frame, with its items found and its settings chosen.

    `figures` holds, by short name, every height and depth: top, studs, outlet, inlet, waste, supply, feet, bracket, reach, …
    """

    key: str
    path: str
    choice: Appliance
    name: str
    kind: str
    ware: Item
    frame: Item
    centre: Figure
    figures: Mapping[str, Figure]
    tie_rod: Item | None

    @property
    def left(self) -> float:
        """Left edge of the frame."""
        return self.centre.value - self.frame.size("width").value / 2

    @property
    def right(self) -> float:
        """Right edge of the frame."""
        return self.centre.value + self.frame.size("width").value / 2


@dataclass(frozen=True, slots=True)
class PipeRun:
    """One run of pipe in the void, from an appliance to where it enters or comes from.

    `run` is its length along the wall, `drop` its fall over that (waste) or its rise (supply); points are (x, z) in order.
    """

    key: str
    mark: str
    what: str
    kind: Literal["soil", "waste", "hot", "cold"]
    serves: str
    size: int
    run: Figure
    rise: Figure | None
    fall: Figure | None
    lengths: tuple[Figure, ...]
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Piece:
    """One rectangular piece of board: width along the face, height up it, where it goes."""

    mark: str
    width: Figure
    height: Figure
    where: str
    x: float
    z: float


@dataclass(frozen=True, slots=True)
class Face:
    """One surface of the pre-wall: front, shelf or a return. Sizes as boarded; `tiled_*` as tiled."""

    key: str
    name: str
    width: Figure
    height: Figure
    tiled_width: Figure
    tiled_height: Figure
    tiled_area: Figure
    boards: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Room:
    """A room worked out. `figures` names every figure a user may ask about, such as "wc-1.studs"."""

    plan: RoomPlan
    path: str
    name: str
    finished_floor: Figure
    width: Figure
    start: Figure
    run: Figure
    depth: Figure
    thickness: Figure
    top: Figure
    top_of_steel: Figure
    placed: tuple[Placed, ...]
    members: tuple[Member, ...]
    pipes: tuple[PipeRun, ...]
    faces: tuple[Face, ...]
    board: Item
    tile: Item
    strut: Item
    figures: Mapping[str, Figure]
    problems: tuple[Problem, ...]

    def of_kind(self, *kinds: str) -> tuple[Placed, ...]:
        """The appliances of these kinds, left to right."""
        return tuple(each for each in self.placed if each.kind in kinds)

    def pipes_of(self, *kinds: str) -> tuple[PipeRun, ...]:
        """The runs of pipe of these kinds."""
        return tuple(each for each in self.pipes if each.kind in kinds)
