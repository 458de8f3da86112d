"""The floor as found, and what will be laid on it afterwards."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import Entry, choice, length, records, text

ON_JOISTS = ("chipboard on joists", "floorboards on joists", "plywood on joists")
SOLID = ("screed", "concrete")


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of the build-up, laid after the frames stand."""

    what: str = text("Layer", "Board, heating mat, levelling compound, adhesive, tile…")
    thickness: Entry | None = length("Thickness", most=300, likely=(1, 80), usual=10, help="What it adds to the floor.")
    laid_by: str = text("Laid by", "Who can be asked.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """The floor along the wall: what the frames stand on."""

    kind: str = choice("Bare floor", ON_JOISTS + SOLID, "What the feet of the frames will stand on.")
    joist_centres: Entry | None = length(
        "Joists apart", least=100, most=900, likely=(300, 610), usual=400, help="Centre to centre; lift a board or find the screws."
    )
    joists_run: str = choice("Joists run", ("into the wall", "along the wall"), "Which way the joists go, seen from the pre-wall.")
    out_of_level: Entry | None = length(
        "Out of level", least=-200, most=200, likely=(-40, 60), usual=0,
        help="Drop along the wall from its highest place; heights are from there.",
    )  # fmt: skip
    highest: str = choice("Highest at the", ("left", "right"), "The end of wall A at which the floor is highest, looking at it.")
    build_up: tuple[Layer, ...] = records("Build-up, bottom first", Layer)
