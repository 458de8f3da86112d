"""Dust from cutting board and tile."""

from __future__ import annotations

from collections.abc import Iterator

from tundish.catalogue.book import Book
from tundish.layout.room import Room
from tundish.rules.rule import Caution, rule


@rule("safety/silica-dust", source="EH40/2005: 0.1 mg/m³ over 8 hours, as quoted by a trade page")
def silica_dust(room: Room, book: Book) -> Iterator[Caution]:
    """Cutting tile and cement board, and drilling masonry, makes silica dust.

    Said in every room: a pre-wall is boarded and tiled.
    """
    yield Caution(
        "Silica dust",
        f"Score and snap {room.board.name} and tiles, or cut them wet or outside with extraction. Wear a mask that fits, FFP3. "
        "Take dust up with a class M vacuum: never sweep it dry. The HSE's sheets for tiling and the makers' instructions say more.",
    )
