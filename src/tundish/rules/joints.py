"""The joints between tiles."""

from __future__ import annotations

from tundish.figure import Figure, number
from tundish.layout.room import Room


def joint_share(room: Room) -> Figure:
    """The share of a tiled face that is joint: what is left of a tile with its joints when the tile is taken away."""
    joint, wide, high = room.figures["joint"], room.tile.size("width"), room.tile.size("height")
    module = ((wide + joint).named("Tile and joint across") * (high + joint).named("Tile and joint up")).named("Tile with its joints")
    share = ((wide * high).named("Tile") / module).named("Share of tile")
    return (number(1, "", "All") - share).named("Share of joint")
