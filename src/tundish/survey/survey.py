"""A room as it was found, measured on site."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import Entry, length, record, records, text
from tundish.survey.floor import Floor
from tundish.survey.pipes import Existing, Stack, WasteEntry, Water
from tundish.survey.shape import Electric, Obstacle, Photograph, Slope
from tundish.survey.wall import Opening, Side, Wall


@dataclass(frozen=True, slots=True, kw_only=True)
class Shell:
    """The room's own sizes, looking at wall A from inside."""

    width: Entry | None = length(
        "Width along wall A",
        least=300,
        most=40_000,
        likely=(700, 8_000),
        usual=1_800,
        help="Tape it twice, low and high; the smaller is used.",
    )
    depth: Entry | None = length(
        "Depth from wall A", least=300, most=40_000, likely=(800, 8_000), usual=2_000, help="From wall A to the wall opposite."
    )
    height: Entry | None = length(
        "Height", least=300, most=10_000, likely=(1_900, 4_000), usual=2_400, help="From the bare floor to the ceiling at wall A."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """Everything measured or seen in one room."""

    room: Shell = record("Room", Shell)
    wall: Wall = record("Wall A", Wall)
    openings: tuple[Opening, ...] = records("Doors and windows", Opening)
    walls: tuple[Side, ...] = records("Further walls", Side)
    slopes: tuple[Slope, ...] = records("Sloping ceilings and soffits", Slope)
    obstacles: tuple[Obstacle, ...] = records("In the way", Obstacle)
    floor: Floor = record("Floor", Floor)
    stack: Stack = record("Stack", Stack)
    entries: tuple[WasteEntry, ...] = records("Other waste entries", WasteEntry)
    water: Water = record("Water", Water)
    electrics: tuple[Electric, ...] = records("Electrics seen", Electric)
    existing: Existing = record("What comes out", Existing)
    photographs: tuple[Photograph, ...] = records("Photographs", Photograph)
    surveyed_by: str = text("Surveyed by")
    note: str = text("Note")
