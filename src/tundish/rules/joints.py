"""Tiles and the joints between them."""

from __future__ import annotations

from tundish.figure import Figure, number
from tundish.layout.room import Room


def with_joint(room: Room) -> tuple[Figure, Figure]:
    """A tile with one of its joints, across and up."""
    joint = room.figures["joint"]
    return (room.tile.size("width") + joint).named("Tile and joint across"), (room.tile.size("height") + joint).named("Tile and joint up")


def joint_share(room: Room) -> Figure:
    """The share of a tiled face that is joint: what is left of a tile with its joints when the tile is taken away."""
    across, up = with_joint(room)
    module = (across * up).named("Tile with its joints")
    share = ((room.tile.size("width") * room.tile.size("height")).named("Tile") / module).named("Share of tile")
    return (number(1, "", "All") - share).named("Share of joint")
