"""The tiles of a pre-wall on the cut list: every face as it is set out from the chosen start, its holes, and what to see to."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import Final

from tundish import measure
from tundish.documents import tile_drawing
from tundish.documents.block import Block, Column, Heading, Paragraph, Row, SideBySide, Sketch, Table
from tundish.layout.design import STRAIGHT
from tundish.layout.room import Room
from tundish.layout.tile_starts import Choice
from tundish.layout.tiled_floor import floor_laid
from tundish.layout.tiled_room import tiled

_COLUMNS = (
    Column("Hole", "text", 2.2, "strong"),
    Column("Face and tile", "text", 2.2),
    Column("From its left", "length", 0.9),
    Column("From its foot", "length", 0.9),
    Column("Left to the edge", "text", 1.2),
    Column("Cut", "tick", 0.5),
)

NARROW: Final = 800.0
"""A face narrower than this, mm, is drawn no smaller in half the page's width."""


def tile_list(room: Room) -> Iterator[Block]:
    """The tiles of one pre-wall, and with the first one those of the floor; nothing where nothing is tiled."""
    laid, floor = tiled(room), floor_laid(room)
    if laid is not None:
        yield from _set_out(f"{room.tile.name}: {room.name}", room.plan.design.finish.bond, laid)
    if floor is not None and room.floor is not None:
        yield from _set_out(f"{room.floor.tile.name}: {room.room_name}, floor", room.floor.bond, floor)


def _set_out(title: str, bond: str, laid: Choice) -> Iterator[Block]:
    yield Heading(title)
    laid_in = "" if bond == STRAIGHT else f"Laid in {bond}. "
    yield Paragraph(f"{laid_in}Start with {laid.start.name}. {tile_drawing.ends(laid)} {tile_drawing.counted(laid)}.", "note")
    yield from _faces(laid)
    rows = tuple(_holes(laid))
    if rows:
        yield Table(_COLUMNS, rows)
    for words in (*laid.spoils, *tile_drawing.notes(laid)):
        yield Paragraph(words if words.endswith(".") else f"{words}.", "note")


def _faces(laid: Choice) -> Iterator[Block]:
    """Every face drawn; narrow ones that follow one another stand two by two."""
    for narrow, faces in groupby(laid.faces, lambda face: face.face.width < NARROW):
        drawn = [Sketch(tile_drawing.tiles(face), face.face.name) for face in faces]
        if not narrow:
            yield from drawn
            continue
        for place in range(0, len(drawn), 2):
            pair = drawn[place : place + 2]
            yield SideBySide((pair[0],), tuple(pair[1:])) if len(pair) > 1 else pair[0]


def _holes(laid: Choice) -> Iterator[Row]:
    for face in laid.faces:
        for hole, tile, x, z, edge in tile_drawing.drilled(face):
            left = f"{measure.show_length(edge)} mm" if edge >= 0 else "notched: it runs over the edge"
            yield Row((hole, f"{face.face.name}, {tile}", x, z, left, ""))
