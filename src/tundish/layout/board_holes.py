"""The holes that studs and pipes need through the boards of a front, by the piece that they go through."""

from __future__ import annotations

import math

from tundish.layout.room import Piece, Room
from tundish.layout.tiled_room import through
from tundish.layout.tiles import Hole


def holes_in(room: Room, piece: Piece) -> tuple[Hole, ...]:
    """The holes that touch a piece of the front, from its own left edge and foot; one on a joint is in both pieces."""
    made = (
        Hole(f"{placed.name} {name}", along - piece.x, level - piece.z, across)
        for placed in room.placed
        for name, along, level, across in through(placed)
    )
    return tuple(hole for hole in made if _beside(hole, piece) < hole.across / 2)


def _beside(hole: Hole, piece: Piece) -> float:
    """How far the middle of a hole is from a piece, 0 within it."""
    wide, high = piece.width.value, piece.height.value
    return math.hypot(hole.x - min(max(hole.x, 0.0), wide), hole.z - min(max(hole.z, 0.0), high))
