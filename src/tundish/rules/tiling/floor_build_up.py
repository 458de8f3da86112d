"""Whether the floor's tiles are reckoned with in its heights."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.measure import show_length
from tundish.rules.rule import Finding, WayOut, judge, rule


@rule("tiling/floor-build-up", figures=("tiling.bed",), source="geometry", whole=True)
def floor_build_up(room: Room, book: Book) -> Iterator[Finding]:
    """Where the floor is tiled, its build-up holds at least the tile and its bed.

    Every height is from the finished floor: tiles that the build-up leaves out would lift the floor under them all.
    """
    if room.floor is None:
        return
    least = (room.floor.tile.size("thickness").named("Floor tile") + book.figure("tiling.bed")).named("Floor tile and bed")
    has = room.finished_floor
    state = judge(has, least, None)
    ways: tuple[WayOut, ...] = ()
    message = ""
    if state != "passes":
        message = f"Put tile and bed into the floor's build-up: it is {show_length(has.value)}, they alone are {show_length(least.value)}."
        layers = room.plan.survey.floor.build_up
        if layers:
            path = f"{room.path}.survey.floor.build_up.{len(layers) - 1}.thickness"
            last = layers[-1].thickness
            thick = (last.value if last is not None else 0.0) + least.value - has.value
            ways = (WayOut(f"Make the last layer {show_length(thick)}; every height above it moves up", path, thick),)
    yield Finding("Tiles in the floor's build-up", "Loads and tiles", state, has, "Own rule", "geometry", least, None, message, "", ways)
