"""The tiles of a pre-wall on the cut list: every face as it is set out from the chosen start, its holes, and what to see to."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.documents import tile_drawing
from tundish.documents.block import Block, Column, Heading, Paragraph, Row, Sketch, Table
from tundish.layout.room import Room
from tundish.layout.tile_starts import Choice
from tundish.layout.tiled_room import tiled

_COLUMNS = (
    Column("Hole", "text", 2.2, "strong"),
    Column("Face and tile", "text", 2.2),
    Column("From its left", "length", 0.9),
    Column("From its foot", "length", 0.9),
    Column("Left to the edge", "text", 1.2),
    Column("Cut", "tick", 0.5),
)


def tile_list(room: Room) -> Iterator[Block]:
    """The tiles of one pre-wall; nothing where nothing is tiled."""
    laid = tiled(room)
    if laid is None:
        return
    yield Heading(f"{room.tile.name}: {room.name}")
    yield Paragraph(f"Start with {laid.start.name}. {tile_drawing.ends(laid)} {tile_drawing.counted(laid)}.", "note")
    for face in laid.faces:
        yield Sketch(tile_drawing.tiles(face), face.face.name)
    rows = tuple(_holes(laid))
    if rows:
        yield Table(_COLUMNS, rows)
    for words in (*laid.spoils, *tile_drawing.notes(laid)):
        yield Paragraph(words if words.endswith(".") else f"{words}.", "note")


def _holes(laid: Choice) -> Iterator[Row]:
    for face in laid.faces:
        for hole, tile, x, z, edge in tile_drawing.drilled(face):
            left = f"{measure.show_length(edge)} mm" if edge >= 0 else "notched: it runs over the edge"
            yield Row((hole, f"{face.face.name}, {tile}", x, z, left, ""))
