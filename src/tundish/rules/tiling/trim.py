"""What edges the tiles where they end outside."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tundish.catalogue.book import Book
from tundish.figure import Figure
from tundish.layout.footprints import stopped
from tundish.layout.room import Room
from tundish.rules.amounts import in_all
from tundish.rules.beside_tiles import trim_for
from tundish.rules.faces import niches, returns, shelf_edge, shelf_of
from tundish.rules.rule import Asked, Cut, Need, rule


@rule("tiling/trim", figures=("tiling.bed",), source="common practice", reads="needs")
def trim(asked: Asked, book: Book) -> Iterator[Need]:
    """Outside edges have a trim.

    The front edge of the shelf, every free end up its height and along its shelf, and round every niche. Where two trims meet at an
    outside corner both are mitred, and measured over their long points: round a niche a piece is longer than the edge by the trim's
    own width at both ends. Where a front goes on into one across a corner they are cut to half of the turn, where it stops against
    a higher one to the whole. A piece longer than a bar is
    cut in equal parts. The usual trim is taken where it is as deep as the tile, or as tile and bed at most; else the next that covers the
    tile's edge.
    """
    room, item = asked.room, trim_for(asked.room, book)
    longest = max((offer.length for offer in book.offers.get(item.code, ())), default=0.0)
    pieces = [piece for edge in _edges(room, item.size("thickness")) for piece in _parts(edge, longest)]
    if pieces:
        cuts = tuple(
            Cut(f"{room.mark}E{place}", piece.length, "tile trim", f"{piece.where}{_MITRED[piece.mitres]}", mitres=piece.mitres)
            for place, piece in enumerate(pieces, 1)
        )
        amount = in_all([cut.length for cut in cuts], "edges", f"Outside edges, {len(cuts)}")
        yield Need(amount, "boarding", "outside edges", item=item.code, cuts=cuts)


_MITRED = ("", ", mitred at one end", ", mitred at both ends")


_SIDES = ("left", "right")


class _Edge(NamedTuple):
    length: Figure
    where: str
    mitres: int
    ends: tuple[str, str] = ("", "")
    """How its left and its right end are cut where that is at no 45 degrees."""


def _edges(room: Room, wide: Figure) -> Iterator[_Edge]:
    shelf, ends = shelf_of(room), returns(room)
    if shelf:
        edge = shelf_edge(room, shelf)
        for join in room.joins:
            if join is not None:
                edge = (edge - join.less(room.thickness) + join.less(wide)).named(edge.label)
        for against in stopped(room):
            if against is not None:
                edge = (edge + (against.back(room.figures["boards"]) - against.face(room.thickness))).named(edge.label)
        cuts = (join.cut if join else against.cut if against else "" for join, against in zip(room.joins, stopped(room), strict=True))
        left, right = (f", {side} end cut to {cut}" if cut else "" for side, cut in zip(_SIDES, cuts, strict=True))
        yield _Edge(edge, "front edge of the shelf", len(ends), (left, right))
    for end in ends:
        yield _Edge(end.tiled_height, f"{end.name}, up the corner", 1 if shelf else 0)
        if shelf:
            yield _Edge(room.depth, f"{end.name}, along the shelf", 1)
    for niche in niches(room):
        for edge, where in ((niche.width, "sill"), (niche.width, "head"), (niche.height, "left side"), (niche.height, "right side")):
            yield _Edge((edge + wide + wide).named(f"{niche.name}, {where}, over the mitres"), f"{niche.name}, {where}", 2)


def _parts(edge: _Edge, longest: float) -> Iterator[_Edge]:
    """The edge as one piece, or in equal ones; of those only the outer have its mitres."""
    if edge.length.high <= 0:
        return
    count = int(-(-edge.length.high // longest)) if longest else 1
    part = edge.length if count == 1 else (edge.length / count).named(f"1/{count} of {edge.length.label}")
    for place in range(count):
        outer = edge.mitres if count == 1 else int(place == 0 and edge.mitres > 1) + int(place == count - 1 and edge.mitres > 0)
        ends = (edge.ends[0] if place == 0 else "") + (edge.ends[1] if place == count - 1 else "")
        yield _Edge(part, edge.where + ends, outer)
