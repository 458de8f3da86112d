"""The floor as it is tiled: how many tiles it takes, and how much of it is joint."""

from __future__ import annotations

from tundish.figure import Figure, converted, number, round_up
from tundish.layout.once import once
from tundish.layout.room import Room, TiledFloor
from tundish.layout.tile_cuts import cut_from
from tundish.layout.tiled_floor import floor_laid, floor_tiling
from tundish.rules.amounts import counted


def module_of(floor: TiledFloor) -> tuple[Figure, Figure]:
    """One of its tiles with a joint each way, and the tile alone, m²."""
    wide, high = floor.tile.size("width"), floor.tile.size("height")
    module = converted((wide + floor.joint) * (high + floor.joint), "m²", "Floor tile with its joints")
    return module, converted(wide * high, "m²", "Floor tile")


@once
def floor_tiles_of(room: Room, floor: TiledFloor) -> Figure:
    """Tiles for the floor as it is set out, cut ones taken from one another's offcuts, before breakage.

    The working has them by area first, and then how far the set-out differs; mosaic is counted by area alone.
    """
    by_area = counted(round_up(floor.area / module_of(floor)[0], 1.0, "Floor tiles by area"))
    laid = floor_laid(room)
    if laid is None:
        return by_area.named("Floor tiles")
    cuts = [(tile.width, tile.height) for face in laid.faces for tile in face.cuts]
    differs = sum(face.whole for face in laid.faces) + cut_from(cuts, floor_tiling(floor)) - by_area.value
    less = differs < 0
    more = number(abs(differs), "each", "Less by offcuts" if less else "More by the set-out")
    more = more.named(more.label, f"Set out from: {laid.start.name}. Cut tiles come from one another's offcuts.")
    return (by_area - more if less else by_area + more).named("Floor tiles")
