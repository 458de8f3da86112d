"""What closes access openings, and whether a tiled one takes the tile."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.amounts import each
from tundish.rules.rule import Finding, Need, judge, rule


@rule("boards/hatches", source="the hatch maker's sheet: its opening, and the thickest tile that it takes")
def hatches(room: Room, book: Book) -> Iterator[Need | Finding]:
    """Each access opening has its hatch.

    One that is tiled over must take the tile.
    """
    for one in room.recesses:
        if one.hatch is None:
            continue
        yield Need(each(1, one.name), "boarding", one.name, item=one.hatch.code)
        if one.hatch.has("tile"):
            has, most = room.tile.size("thickness"), one.hatch.size("tile")
            state = judge(has, None, most)
            words = "" if state == "passes" else "Choose a thinner tile, or a hatch that takes this one."
            yield Finding("Tile on the hatch", "Clearances", state, has, "Maker", one.hatch.sheet, None, most, words, one.name)
